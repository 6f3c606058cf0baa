// The whole ornament as one triangle surface: all 2N half-panels, flattened by opened::in_wedge.
#pragma once

#include "opened/opened.h"
#include "picture/vec3.h"

#include <array>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

struct Surface {
  std::vector<Vec3> points;  ///< mm
  std::vector<Vec3> normals; ///< unit, smooth within a half-panel; either side may be the front
  std::vector<std::array<unsigned, 3>> triangles;
};

/// Largest surface drawn; about 0.8 GB with its search tree. Finer meshes are made coarser.
inline constexpr std::size_t most_triangles = 4'000'000;

/// Half-panels that fill the full circle, 2N; 0 when the wedge has no angle.
int half_panels_of_full_circle(const opened::Form& form);

/// Copies the half-panel into wedges 0..half_panels-1 and closes the folds between the halves of a leaf, which stand
/// half a caliper to either side of their wall. Refuses, each with a sentence, an empty mesh, an index outside it, a
/// coordinate that is not finite, flat places that do not go with the points, and more than 20,000 half-panels.
std::variant<Surface, std::string> flatten(const opened::Form& form, int half_panels);

} // namespace fanwright::picture
