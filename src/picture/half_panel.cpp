#include "picture/half_panel.h"

#include "picture/flat_ring.h"
#include "picture/opened_place.h"
#include "picture/sheet_layout.h"
#include "picture/surface.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace fanwright::picture {
namespace {

constexpr double largest_leaf_mm = 6000; // what a layout takes

std::optional<std::string> fault(const opened::Panel& panel, const opened::Form& form) {
  const auto& mesh = form.mesh;
  if (mesh.points.empty() || mesh.triangles.empty() || mesh.flat.size() != mesh.points.size())
    return "The opened form holds no surface; open the ornament first.";
  if (panel.outline.size() < 3)
    return "The leaf has no outline; give its silhouette.";
  const auto sound = [](double x) { return std::abs(x) < largest_leaf_mm; }; // false for what is no number, too
  for (std::size_t k = 0; k < mesh.points.size(); ++k)
    if (!std::ranges::all_of(mesh.points[k], sound) || !sound(mesh.flat[k].x) || !sound(mesh.flat[k].z))
      return "The opened form holds a place further than 6 m away or none at all; open the ornament again.";
  return fault_of_triangles(mesh);
}

} // namespace

std::variant<HalfPanel, std::string> half_panel(const opened::Panel& panel, const opened::Form& form,
                                                double spacing_mm) {
  if (auto sentence = fault(panel, form))
    return *sentence;
  const OpenedPlace opened_place(form.mesh);
  SheetLayout layout(spacing_mm);
  std::vector<leaf::Ring> rings{panel.outline};
  rings.insert(rings.end(), panel.cut_outs.begin(), panel.cut_outs.end());
  for (const leaf::Ring& given : rings) {
    const leaf::Ring ring = evenly_spaced(given, spacing_mm);
    std::vector<opened::Point3> places;
    for (std::size_t k = 0; k < ring.size(); ++k)
      places.push_back(opened_place.at(just_inside(ring, k)));
    layout.add_ring(ring, places);
  }
  for (std::size_t k = 0; k < form.mesh.flat.size(); ++k)
    layout.add(form.mesh.flat[k], form.mesh.points[k]);
  auto half = layout.filled();
  if (!half)
    return "The leaf's outline and cut-outs come too close to each other for a mesh; keep them 0.1 mm apart.";
  return *std::move(half);
}

} // namespace fanwright::picture
