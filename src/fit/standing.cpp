#include "fit/standing.h"

#include "fit/check_limits.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::fit {
namespace {

using opened::Point3;

double cross(Spot o, Spot a, Spot b) { return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x); }

int wedges(const opened::Form& form, int leaves) { return form.wedge_rad > 0 ? 2 * leaves : 0; }

/// Where the piece touches the table, all wedges.
std::vector<Spot> touching(const opened::Form& form, int leaves) {
  std::vector<Spot> spots;
  for (const opened::EdgePoint& point : form.edge) {
    if (point.height > limit::touching_mm)
      continue;
    const Point3 place = form.place({point.x, point.z});
    for (int k = 0; k < wedges(form, leaves); ++k) {
      const Point3 turned = opened::in_wedge(form, k, place);
      spots.push_back({turned[0], turned[1]});
    }
  }
  return spots;
}

/// Convex hull, counter-clockwise (monotone chain).
std::vector<Spot> hull(std::vector<Spot> spots) {
  std::ranges::sort(spots, [](Spot a, Spot b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  std::vector<Spot> ring;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = ring.size();
    for (const Spot& spot : spots) {
      while (ring.size() >= start + 2 && cross(ring[ring.size() - 2], ring.back(), spot) <= 0)
        ring.pop_back();
      ring.push_back(spot);
    }
    ring.pop_back();
    std::ranges::reverse(spots);
  }
  return ring;
}

} // namespace

Point3 mass_centre(const opened::Form& form, int leaves) {
  Point3 sum{0, 0, 0};
  double area = 0;
  for (const auto& [a, b, c] : form.mesh.triangles) {
    const Point3& p = form.mesh.points[static_cast<std::size_t>(a)];
    const Point3& q = form.mesh.points[static_cast<std::size_t>(b)];
    const Point3& r = form.mesh.points[static_cast<std::size_t>(c)];
    const Point3 u{q[0] - p[0], q[1] - p[1], q[2] - p[2]};
    const Point3 v{r[0] - p[0], r[1] - p[1], r[2] - p[2]};
    const double size_mm2 =
        std::hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    area += size_mm2;
    for (std::size_t k = 0; k < 3; ++k)
      sum[k] += size_mm2 * (p[k] + q[k] + r[k]) / 3;
  }
  const Point3 half{sum[0] / area, sum[1] / area, sum[2] / area};
  Point3 centre{0, 0, half[2]};
  const int count = wedges(form, leaves);
  for (int k = 0; k < count; ++k) {
    const Point3 place = opened::in_wedge(form, k, half);
    centre[0] += place[0] / count;
    centre[1] += place[1] / count;
  }
  return centre;
}

std::vector<Spot> footprint(const opened::Form& form, int leaves) { return hull(touching(form, leaves)); }

double reach_of_feet(const std::vector<Spot>& footprint, Spot centre) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < footprint.size(); ++i) {
    const Spot a = footprint[i];
    const Spot b = footprint[(i + 1) % footprint.size()];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (length > 0)
      least = std::min(least, cross(a, b, centre) / length);
  }
  return footprint.size() < 3 ? 0 : least;
}

} // namespace fanwright::fit
