#include "picture/surface.h"

#include "picture/coarser.h"
#include "picture/sheet_edge.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

namespace fanwright::picture {
namespace {

std::optional<std::string> fault(const opened::Form& form, int half_panels) {
  const auto& mesh = form.mesh;
  if (mesh.points.empty() || mesh.triangles.empty())
    return "The opened form holds no surface to draw; open the ornament first.";
  if (half_panels < 1 || half_panels > 20'000)
    return "A picture shows 1 to 10000 leaves; the opened form asks for another number.";
  if (mesh.flat.size() != mesh.points.size())
    return "The opened form does not say where its points lie in the flat leaf; open the ornament again.";
  for (const auto& flat : mesh.flat)
    if (!(std::abs(flat.x) <= 1e6 && std::abs(flat.z) <= 1e6))
      return "The opened form holds a flat place that is not a finite length; open the ornament again.";
  for (const auto& point : mesh.points)
    for (double coordinate : point)
      if (!std::isfinite(coordinate) || std::abs(coordinate) > 1e6)
        return "The opened form holds a place that is not a finite length; open the ornament again.";
  return fault_of_triangles(mesh);
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

// Mesh edges that lie on the spine.
std::vector<std::pair<unsigned, unsigned>> spine_edges(const opened::Mesh& mesh) {
  std::vector<std::pair<unsigned, unsigned>> edges;
  for (const auto& triangle : mesh.triangles)
    for (std::size_t c = 0; c < 3; ++c) {
      const int a = triangle[c], b = triangle[(c + 1) % 3];
      if (mesh.flat[static_cast<std::size_t>(a)].x <= 0 && mesh.flat[static_cast<std::size_t>(b)].x <= 0)
        edges.emplace_back(a, b);
    }
  return edges;
}

// Spines further apart than this have bowed away from each other and are left open, mm.
constexpr float touching_mm = 1;

// The halves of a leaf face each other across wall A, which even wedge k shares with wedge k - 1, and are one at the
// fold. Across wall B the folds of neighbouring leaves press against each other: that gives the hub its radius. Done
// after the normals, so that the narrow strips do not bend the shading of the halves.
void close_hub(const opened::Mesh& mesh, double wedge_rad, int half_panels, Surface& surface) {
  const auto count = static_cast<unsigned>(mesh.points.size());
  const bool closed_round = std::abs(half_panels * wedge_rad - 2 * std::numbers::pi) < 1e-6;
  const auto edges = spine_edges(mesh);
  for (int k = closed_round ? 0 : 1; k < half_panels; ++k) {
    const unsigned here = static_cast<unsigned>(k) * count;
    const unsigned there = static_cast<unsigned>(k > 0 ? k - 1 : half_panels - 1) * count;
    for (const auto& [a, b] : edges) {
      if (k % 2 != 0 && length(surface.points[here + a] - surface.points[there + a]) > touching_mm)
        continue;
      surface.triangles.push_back({here + a, here + b, there + b});
      surface.triangles.push_back({here + a, there + b, there + a});
    }
  }
}

} // namespace

int half_panels_of_full_circle(const opened::Form& form) {
  if (!(form.wedge_rad > 1e-6))
    return 0;
  return static_cast<int>(std::lround(2 * std::numbers::pi / form.wedge_rad));
}

void add(Surface& surface, const Surface& piece, double turn_rad, Vec3 shift) {
  const auto c = static_cast<float>(std::cos(turn_rad)), s = static_cast<float>(std::sin(turn_rad));
  const auto turned = [&](Vec3 p) { return Vec3{p.x * c - p.y * s, p.x * s + p.y * c, p.z}; };
  const auto first = static_cast<unsigned>(surface.points.size());
  for (Vec3 point : piece.points)
    surface.points.push_back(turned(point) + shift);
  for (Vec3 normal : piece.normals)
    surface.normals.push_back(turned(normal));
  for (auto [a, b, d] : piece.triangles)
    surface.triangles.push_back({first + a, first + b, first + d});
  for (auto [a, b, d] : piece.edge_triangles)
    surface.edge_triangles.push_back({first + a, first + b, first + d});
  surface.flat.insert(surface.flat.end(), piece.flat.begin(), piece.flat.end());
}

std::variant<Surface, std::string> flatten(const opened::Form& form, int half_panels, std::size_t most) {
  if (auto sentence = fault(form, half_panels))
    return *sentence;
  const auto copies = static_cast<std::size_t>(half_panels);
  const auto mesh =
      form.mesh.triangles.size() > most / copies ? coarser(form.mesh, on_outer_edge(form), most / copies) : form.mesh;
  if (mesh.triangles.empty())
    return "The opened form is too small to draw; open the ornament again.";
  Surface surface;
  surface.points.reserve(mesh.points.size() * copies);
  for (int k = 0; k < half_panels; ++k)
    for (const auto& point : mesh.points) {
      const auto [x, y, z] = opened::in_wedge(form, k, point);
      surface.points.push_back({static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)});
    }
  place_in_leaf(form, mesh, half_panels, surface);
  surface.triangles.reserve(mesh.triangles.size() * copies);
  const auto count = static_cast<unsigned>(mesh.points.size());
  for (unsigned k = 0; k < copies; ++k)
    for (const auto& [a, b, c] : mesh.triangles)
      surface.triangles.push_back({k * count + static_cast<unsigned>(a), k * count + static_cast<unsigned>(b),
                                   k * count + static_cast<unsigned>(c)});
  smooth_normals(surface);
  close_hub(mesh, form.wedge_rad, half_panels, surface);
  return surface;
}

std::optional<std::string> fault_of_triangles(const opened::Mesh& mesh) {
  const int count = static_cast<int>(mesh.points.size());
  for (const auto& triangle : mesh.triangles)
    for (int corner : triangle)
      if (corner < 0 || corner >= count)
        return "The opened form holds a triangle without a corner; open the ornament again.";
  return std::nullopt;
}

} // namespace fanwright::picture
