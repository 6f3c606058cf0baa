#include "picture/half_panel.h"

#include "picture/flat_ring.h"
#include "picture/opened_place.h"
#include "picture/surface.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace fanwright::picture {
namespace {

constexpr double steps_per_mm = 1e4;     // 0.0001 mm: finer than any cut, coarser than rounding
constexpr double clearance_share = 0.35; // of the spacing, between neighbouring points; solver points are 0.6 mm apart
constexpr double largest_leaf_mm = static_cast<double>(most_steps) / steps_per_mm;

Place snapped(leaf::Point p) { return {std::llround(p.x * steps_per_mm), std::llround(p.z * steps_per_mm)}; }

double distance_squared(leaf::Point p, leaf::Point a, leaf::Point b) {
  const double dx = b.x - a.x, dz = b.z - a.z;
  const double length = dx * dx + dz * dz;
  const double t = length > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / length, 0.0, 1.0) : 0.0;
  const double ex = a.x + t * dx - p.x, ez = a.z + t * dz - p.z;
  return ex * ex + ez * ez;
}

/// Straight pieces (or single points) already placed, to keep others clear of them.
class Taken {
public:
  explicit Taken(double clearance_mm) : clearance_(clearance_mm) {}

  void add(leaf::Point a, leaf::Point b) {
    for (long i = column(std::min(a.x, b.x) - clearance_); i <= column(std::max(a.x, b.x) + clearance_); ++i)
      for (long j = column(std::min(a.z, b.z) - clearance_); j <= column(std::max(a.z, b.z) + clearance_); ++j)
        cells_[{i, j}].emplace_back(a, b);
  }

  bool clear(leaf::Point p) const {
    const auto cell = cells_.find({column(p.x), column(p.z)});
    return cell == cells_.end() || std::ranges::none_of(cell->second, [&](const auto& piece) {
             return distance_squared(p, piece.first, piece.second) < clearance_ * clearance_;
           });
  }

private:
  long column(double x) const { return std::lround(std::floor(x / (4 * clearance_))); }
  double clearance_;
  std::map<std::pair<long, long>, std::vector<std::pair<leaf::Point, leaf::Point>>> cells_;
};

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

/// Flat points and rings of indices into them; the rings' points come first.
struct Layout {
  std::vector<leaf::Point> flat;
  std::vector<opened::Point3> points;
  std::vector<std::vector<int>> rings;
};

Layout laid_out(const opened::Panel& panel, const opened::Form& form, double spacing_mm) {
  Layout layout;
  const OpenedPlace opened_place(form.mesh);
  Taken taken(clearance_share * spacing_mm);
  std::vector<leaf::Ring> rings{panel.outline};
  rings.insert(rings.end(), panel.cut_outs.begin(), panel.cut_outs.end());
  for (const leaf::Ring& given : rings) {
    const leaf::Ring ring = evenly_spaced(given, spacing_mm);
    std::vector<int> chain;
    for (std::size_t k = 0; k < ring.size(); ++k) {
      chain.push_back(static_cast<int>(layout.flat.size()));
      layout.flat.push_back(ring[k]);
      layout.points.push_back(opened_place.at(just_inside(ring, k)));
      taken.add(ring[k], ring[(k + 1) % ring.size()]);
    }
    layout.rings.push_back(std::move(chain));
  }
  for (std::size_t k = 0; k < form.mesh.flat.size(); ++k)
    if (const leaf::Point p = form.mesh.flat[k]; taken.clear(p)) {
      taken.add(p, p);
      layout.flat.push_back(p);
      layout.points.push_back(form.mesh.points[k]);
    }
  return layout;
}

/// Leaves out points that no triangle uses.
HalfPanel gathered(const Layout& layout, Triangles triangles) {
  HalfPanel half;
  std::vector<int> moved(layout.flat.size(), -1);
  for (auto& triangle : triangles)
    for (int& corner : triangle) {
      int& place = moved[static_cast<std::size_t>(corner)];
      if (place < 0) {
        place = static_cast<int>(half.points.size());
        half.points.push_back(layout.points[static_cast<std::size_t>(corner)]);
        half.flat.push_back(layout.flat[static_cast<std::size_t>(corner)]);
      }
      corner = place;
    }
  half.triangles = std::move(triangles);
  return half;
}

void find_edges(HalfPanel& half) {
  std::map<std::array<int, 2>, int> used;
  for (const auto& t : half.triangles)
    for (std::size_t c = 0; c < 3; ++c)
      used[{t[c], t[(c + 1) % 3]}] = 1;
  for (const auto& [edge, once] : used)
    if (!used.contains({edge[1], edge[0]}))
      half.edge.push_back(edge);
}

// The cross product of two sides is twice the area times the normal.
void find_normals(HalfPanel& half) {
  half.normals.assign(half.points.size(), {0, 0, 0});
  for (const auto& t : half.triangles) {
    const auto& a = half.points[static_cast<std::size_t>(t[0])];
    const auto& b = half.points[static_cast<std::size_t>(t[1])];
    const auto& c = half.points[static_cast<std::size_t>(t[2])];
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t i = (k + 1) % 3, j = (k + 2) % 3;
      const double n = (b[i] - a[i]) * (c[j] - a[j]) - (b[j] - a[j]) * (c[i] - a[i]);
      for (int corner : t)
        half.normals[static_cast<std::size_t>(corner)][k] += n;
    }
  }
  for (auto& n : half.normals) {
    const double length = std::hypot(n[0], n[1], n[2]);
    n = length > 0 ? opened::Point3{n[0] / length, n[1] / length, n[2] / length} : opened::Point3{0, -1, 0};
  }
}

} // namespace

std::variant<HalfPanel, std::string> half_panel(const opened::Panel& panel, const opened::Form& form,
                                                double spacing_mm) {
  if (auto sentence = fault(panel, form))
    return *sentence;
  const Layout layout = laid_out(panel, form, spacing_mm);
  std::vector<Place> places;
  std::ranges::transform(layout.flat, std::back_inserter(places), snapped);
  auto triangles = triangulated(places, layout.rings);
  if (!triangles || triangles->empty())
    return "The leaf's outline and cut-outs come too close to each other for a mesh; keep them 0.1 mm apart.";
  HalfPanel half = gathered(layout, std::move(*triangles));
  find_edges(half);
  find_normals(half);
  return half;
}

} // namespace fanwright::picture
