// Ray queries against a surface, answered by Embree.
#pragma once

#include "picture/surface.h"

#include <memory>
#include <optional>

namespace fanwright::picture {

/// Where a ray meets the paper.
struct Hit {
  float distance = 0;             ///< mm along the ray
  Vec3 normal;                    ///< smooth unit normal, on the side the ray comes from
  Vec3 facet_normal;              ///< unit normal of the triangle itself, same side
  unsigned triangle = 0;          ///< of the sheets, or of their cut edges
  bool on_edge = false;           ///< on a cut edge
  std::array<float, 3> weights{}; ///< of the triangle's corners, sum 1
  int side = 0;                   ///< 0: the ray meets the side the surface's normals point to, 1: the other
};

/// Queries are const and may run on many threads.
class Scene {
public:
  /// Empty when the search tree does not fit in memory. `draft`: built sooner, searched slower.
  static std::optional<Scene> build(Surface surface, bool draft = false);

  /// Nearest sheet; cut edges are not met.
  std::optional<Hit> hit(const Ray& ray) const;

  /// Nearest sheet or cut edge: what the eye sees.
  std::optional<Hit> seen(const Ray& ray) const;

  /// The points at the corners of the triangle that was hit.
  const std::array<unsigned, 3>& corners(const Hit& hit) const;

  /// Whether paper lies between the origin and `distance` mm along the ray.
  bool blocked(const Ray& ray, float distance) const;

  const Surface& surface() const;

private:
  struct Tree;
  explicit Scene(std::shared_ptr<const Tree> tree);
  std::shared_ptr<const Tree> tree_;
};

} // namespace fanwright::picture
