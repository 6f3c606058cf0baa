#include "picture/surface.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace fanwright::picture {
namespace {

std::optional<std::string> fault(const opened::Form& form, int half_panels) {
  const auto& mesh = form.mesh;
  if (mesh.points.empty() || mesh.triangles.empty())
    return "The opened form holds no surface to draw; open the ornament first.";
  if (half_panels < 1 || mesh.triangles.size() > most_triangles / static_cast<std::size_t>(half_panels))
    return "The opened form has too many triangles to draw; open it with larger cells.";
  for (const auto& point : mesh.points)
    for (double coordinate : point)
      if (!std::isfinite(coordinate) || std::abs(coordinate) > 1e6)
        return "The opened form holds a place that is not a finite length; open the ornament again.";
  const int count = static_cast<int>(mesh.points.size());
  for (const auto& triangle : mesh.triangles)
    for (int corner : triangle)
      if (corner < 0 || corner >= count)
        return "The opened form holds a triangle without a corner; open the ornament again.";
  return std::nullopt;
}

// Area-weighted: the cross product of two sides is twice the area times the normal.
void smooth_normals(Surface& surface) {
  surface.normals.assign(surface.points.size(), Vec3{});
  for (const auto& [a, b, c] : surface.triangles) {
    const Vec3 n = cross(surface.points[b] - surface.points[a], surface.points[c] - surface.points[a]);
    for (unsigned corner : {a, b, c})
      surface.normals[corner] = surface.normals[corner] + n;
  }
  std::ranges::transform(surface.normals, surface.normals.begin(), unit);
}

} // namespace

int half_panels_of_full_circle(const opened::Form& form) {
  if (!(form.wedge_rad > 1e-6))
    return 0;
  return static_cast<int>(std::lround(2 * std::numbers::pi / form.wedge_rad));
}

std::variant<Surface, std::string> flatten(const opened::Form& form, int half_panels) {
  if (auto sentence = fault(form, half_panels))
    return *sentence;
  Surface surface;
  const auto copies = static_cast<std::size_t>(half_panels);
  surface.points.reserve(form.mesh.points.size() * copies);
  surface.triangles.reserve(form.mesh.triangles.size() * copies);
  for (int k = 0; k < half_panels; ++k) {
    const auto first = static_cast<unsigned>(surface.points.size());
    for (const auto& point : form.mesh.points) {
      const auto [x, y, z] = opened::in_wedge(form, k, point);
      surface.points.push_back({static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)});
    }
    for (const auto& [a, b, c] : form.mesh.triangles)
      surface.triangles.push_back(
          {first + static_cast<unsigned>(a), first + static_cast<unsigned>(b), first + static_cast<unsigned>(c)});
  }
  smooth_normals(surface);
  return surface;
}

} // namespace fanwright::picture
