// Ornaments as one triangle surface: all 2N half-panels of each, flattened by opened::in_wedge.
#pragma once

#include "opened/opened.h"
#include "picture/vec3.h"

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

/// Where a point lies in its flat leaf, mm.
struct FlatPlace {
  float x = 0, z = 0;
  float to_edge = 1e6F;    ///< distance from the leaf's outer edge
  unsigned half_panel = 0; ///< tells the copies apart
};

struct Surface {
  std::vector<Vec3> points;  ///< mm
  std::vector<Vec3> normals; ///< unit, smooth within a half-panel; either side may be the front
  std::vector<std::array<unsigned, 3>> triangles;
  std::vector<std::array<unsigned, 3>> edge_triangles; ///< the cut edges of the sheets, seen but casting no shadow
  std::vector<FlatPlace> flat;                         ///< one for each point, or empty
};

/// Largest surface drawn; about 0.8 GB with its search tree. Finer meshes are made coarser.
inline constexpr std::size_t most_triangles = 4'000'000;

/// A sentence when a triangle names a point that the mesh does not have.
std::optional<std::string> fault_of_triangles(const opened::Mesh& mesh);

/// Half-panels that fill the full circle, 2N; 0 when the wedge has no angle.
int half_panels_of_full_circle(const opened::Form& form);

/// Copies the half-panel into wedges 0..half_panels-1 and closes the hub: the folds between the halves of a leaf,
/// which stand half a caliper to either side of their wall, and between folds that press against each other. Refuses,
/// each with a sentence, an empty mesh, an index outside it, a coordinate that is not finite, flat places that do not
/// go with the points, and more than 20,000 half-panels.
std::variant<Surface, std::string> flatten(const opened::Form& form, int half_panels,
                                           std::size_t most = most_triangles);

/// Adds a piece, turned about its axis by `turn_rad` and then moved by `shift` mm.
void add(Surface& surface, const Surface& piece, double turn_rad, Vec3 shift);

} // namespace fanwright::picture
