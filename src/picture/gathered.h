// Light that reaches the seen paper from the sky and from other paper, gathered once at the surface's points and
// interpolated between them: far less grain than gathering it afresh in every pixel.
// Based on the irradiance cache of global illumination, with the mesh's own points as its records.
#pragma once

#include "picture/parallel.h"
#include "picture/trace.h"

#include <array>
#include <cstdint>
#include <vector>

namespace fanwright::picture {

class GatheredLight {
public:
  /// The scene must outlive this.
  explicit GatheredLight(const Scene& scene);

  /// Asks for the corners of a hit. May be called from many threads at once.
  void want(const Hit& hit);

  /// Gathers at all points asked for, with about `samples` in all. False when cancelled.
  bool gather(const Tracer& tracer, const Crew& crew, std::size_t samples);

  /// Scattered radiance at a hit; where its corners were not asked for, one fresh sample.
  Vec3 at(const Tracer& tracer, const Ray& ray, const Hit& hit, Chance& chance) const;

private:
  void gather_point(const Tracer& tracer, std::size_t record, std::uint32_t samples);
  void smooth();

  const Scene& scene_;
  // A record for each side of each point: 2 * point + side.
  std::vector<std::uint8_t> wanted_;
  std::vector<Vec3> light_;
};

} // namespace fanwright::picture
