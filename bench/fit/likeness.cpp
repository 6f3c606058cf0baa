#include "likeness.h"

#include "leaf/contour.h"
#include "leaf/region.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fanwright::bench {
namespace {

using leaf::Point;

/// Distance of a point from a line of points.
double away(Point p, const std::vector<Point>& line) {
  double least = 1e300;
  for (std::size_t k = 0; k + 1 < line.size(); ++k) {
    const Point a = line[k], b = line[k + 1];
    const double dx = b.x - a.x, dz = b.z - a.z;
    const double t = std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / std::max(dx * dx + dz * dz, 1e-12), 0.0, 1.0);
    least = std::min(least, std::hypot(a.x + t * dx - p.x, a.z + t * dz - p.z));
  }
  return least;
}

std::vector<Point> edge_of(const opened::Form& form) {
  std::vector<Point> edge;
  for (const opened::EdgePoint& p : form.edge)
    edge.push_back({p.radius, p.height});
  return edge;
}

} // namespace

Likeness likeness(const opened::Form& form, const leaf::Silhouette& wanted) {
  const std::vector<Point> edge = edge_of(form);
  std::vector<Point> drawn = leaf::flatten(wanted.outline, 0.005);
  const leaf::Box box = leaf::bounds(wanted.outline);
  const double foot = box.bottom;
  for (Point& p : drawn)
    p.z -= foot;
  Likeness found;
  found.size_mm = std::max(box.height(), 2 * box.right);
  leaf::Ring opened = edge;
  opened.push_back({0, edge.back().z});
  opened.push_back({0, edge.front().z});
  found.overlap = leaf::overlap(opened, drawn);
  const double middle = 0.5 * box.height();
  const auto clear = [&](Point p) { return p.x > hub_reach * (p.z < middle ? edge.front().x : edge.back().x); };
  for (const Point p : drawn)
    if (clear(p))
      found.deviation_mm = std::max(found.deviation_mm, away(p, edge));
  for (const Point p : edge)
    if (clear(p))
      found.deviation_mm = std::max(found.deviation_mm, away(p, drawn));
  found.height_off_mm = form.height_mm - box.height();
  found.diameter_off_mm = form.diameter_mm - 2 * box.right;
  // The flat foot: from the outline's start as far out as it runs level.
  double level_to = 0;
  for (std::size_t k = 0; k < drawn.size() && drawn[k].z < 1e-6; ++k)
    level_to = drawn[k].x;
  // Its rim is a corner, where the edge turns up.
  constexpr double rim_mm = 0.2;
  for (std::size_t k = 0; k < edge.size() && edge[k].x < level_to - rim_mm; ++k)
    if (clear(edge[k]))
      found.foot_lift_mm = std::max(found.foot_lift_mm, edge[k].z);
  return found;
}

} // namespace fanwright::bench
