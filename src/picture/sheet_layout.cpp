#include "picture/sheet_layout.h"

#include <algorithm>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr double steps_per_mm = 1e4;     // 0.0001 mm: finer than any cut, coarser than rounding
constexpr double clearance_share = 0.35; // of the spacing, between neighbouring points; solver points are 0.6 mm apart

Place snapped(leaf::Point p, leaf::Point origin) {
  return {std::llround((p.x - origin.x) * steps_per_mm), std::llround((p.z - origin.z) * steps_per_mm)};
}

double distance_squared(leaf::Point p, leaf::Point a, leaf::Point b) {
  const double dx = b.x - a.x, dz = b.z - a.z;
  const double length = dx * dx + dz * dz;
  const double t = length > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / length, 0.0, 1.0) : 0.0;
  const double ex = a.x + t * dx - p.x, ez = a.z + t * dz - p.z;
  return ex * ex + ez * ez;
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

SheetLayout::SheetLayout(double spacing_mm, leaf::Point origin)
    : clearance_(clearance_share * spacing_mm), origin_(origin) {}

long SheetLayout::column(double x) const { return std::lround(std::floor(x / (4 * clearance_))); }

void SheetLayout::take(leaf::Point a, leaf::Point b) {
  for (long i = column(std::min(a.x, b.x) - clearance_); i <= column(std::max(a.x, b.x) + clearance_); ++i)
    for (long j = column(std::min(a.z, b.z) - clearance_); j <= column(std::max(a.z, b.z) + clearance_); ++j)
      taken_[{i, j}].emplace_back(a, b);
}

bool SheetLayout::clear(leaf::Point p) const {
  const auto cell = taken_.find({column(p.x), column(p.z)});
  return cell == taken_.end() || std::ranges::none_of(cell->second, [&](const auto& piece) {
           return distance_squared(p, piece.first, piece.second) < clearance_ * clearance_;
         });
}

void SheetLayout::add_ring(const leaf::Ring& ring, const std::vector<opened::Point3>& places) {
  std::vector<int> chain;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    chain.push_back(static_cast<int>(flat_.size()));
    flat_.push_back(ring[k]);
    places_.push_back(places[k]);
    take(ring[k], ring[(k + 1) % ring.size()]);
  }
  rings_.push_back(std::move(chain));
}

void SheetLayout::add(leaf::Point flat, const opened::Point3& place) {
  if (!clear(flat))
    return;
  take(flat, flat);
  flat_.push_back(flat);
  places_.push_back(place);
}

/// Leaves out points that no triangle uses.
HalfPanel SheetLayout::gathered(Triangles triangles) const {
  HalfPanel half;
  std::vector<int> moved(flat_.size(), -1);
  for (auto& triangle : triangles)
    for (int& corner : triangle) {
      int& place = moved[static_cast<std::size_t>(corner)];
      if (place < 0) {
        place = static_cast<int>(half.points.size());
        half.points.push_back(places_[static_cast<std::size_t>(corner)]);
        half.flat.push_back(flat_[static_cast<std::size_t>(corner)]);
      }
      corner = place;
    }
  half.triangles = std::move(triangles);
  return half;
}

std::optional<HalfPanel> SheetLayout::filled() const {
  std::vector<Place> steps;
  steps.reserve(flat_.size());
  for (const leaf::Point& p : flat_)
    steps.push_back(snapped(p, origin_));
  auto triangles = triangulated(steps, rings_);
  if (!triangles || triangles->empty())
    return std::nullopt;
  HalfPanel half = gathered(*std::move(triangles));
  find_edges(half);
  find_normals(half);
  return half;
}

} // namespace fanwright::picture
