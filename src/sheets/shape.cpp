#include "sheets/shape.h"

#include "sheets/exact.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fanwright::sheets {

namespace {

constexpr double um_per_mm = 1000;

bool straight_on(Spot before, Spot at, Spot after) {
  return cross(at - before, after - at) == 0 && dot(at - before, after - at) >= 0;
}

Loop without_idle_points(Loop loop) {
  loop.erase(std::unique(loop.begin(), loop.end()), loop.end());
  while (loop.size() > 1 && loop.front() == loop.back())
    loop.pop_back();
  Loop kept;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Spot before = kept.empty() ? loop.back() : kept.back();
    if (!straight_on(before, loop[i], loop[(i + 1) % loop.size()]))
      kept.push_back(loop[i]);
  }
  return kept;
}

double distance_to_chord(Spot p, Spot a, Spot b) {
  const Spot along = b - a;
  const double length2 = static_cast<double>(dot(along, along));
  const double t = length2 > 0 ? std::clamp(static_cast<double>(dot(p - a, along)) / length2, 0.0, 1.0) : 0;
  return std::hypot(static_cast<double>(p.x - a.x) - t * static_cast<double>(along.x),
                    static_cast<double>(p.z - a.z) - t * static_cast<double>(along.z));
}

/// Marks the points of loop[first..last] (indices modulo the size) that a tolerance needs.
void mark_needed(const Loop& loop, std::size_t first, std::size_t last, double tolerance_um,
                 std::vector<bool>& needed) {
  std::vector<std::pair<std::size_t, std::size_t>> stretches{{first, last}};
  while (!stretches.empty()) {
    const auto [from, to] = stretches.back();
    stretches.pop_back();
    double worst = tolerance_um;
    std::size_t at = from;
    for (std::size_t i = from + 1; i < to; ++i)
      if (const double off = distance_to_chord(loop[i % loop.size()], loop[from % loop.size()], loop[to % loop.size()]);
          off > worst) {
        worst = off;
        at = i;
      }
    if (at == from)
      continue;
    needed[at % loop.size()] = true;
    stretches.push_back({from, at});
    stretches.push_back({at, to});
  }
}

Loop simplified_within(const Loop& loop, double tolerance_um) {
  if (loop.empty())
    return loop;
  const auto lowest = static_cast<std::size_t>(
      std::min_element(loop.begin(), loop.end(), [](Spot a, Spot b) { return a.z < b.z; }) - loop.begin());
  std::size_t farthest = lowest;
  for (std::size_t i = 0; i < loop.size(); ++i)
    if (dot(loop[i] - loop[lowest], loop[i] - loop[lowest]) >
        dot(loop[farthest] - loop[lowest], loop[farthest] - loop[lowest]))
      farthest = i;
  std::vector<bool> needed(loop.size(), false);
  needed[lowest] = needed[farthest] = true;
  const std::size_t middle = farthest > lowest ? farthest : farthest + loop.size();
  mark_needed(loop, lowest, middle, tolerance_um, needed);
  mark_needed(loop, middle, lowest + loop.size(), tolerance_um, needed);
  Loop kept;
  for (std::size_t i = 0; i < loop.size(); ++i)
    if (needed[i])
      kept.push_back(loop[i]);
  return kept;
}

} // namespace

Loop loop_of(const leaf::Ring& ring) {
  Loop loop;
  for (const leaf::Point& p : ring)
    loop.push_back({std::llround(p.x * um_per_mm), std::llround(p.z * um_per_mm)});
  loop = without_idle_points(std::move(loop));
  if (doubled_area(loop) < 0)
    std::reverse(loop.begin(), loop.end());
  return loop;
}

Shape shape_of(const leaf::Ring& outline, const std::vector<leaf::Ring>& holes) {
  Shape shape{loop_of(outline), {}};
  for (const leaf::Ring& hole : holes) {
    Loop loop = loop_of(hole);
    std::reverse(loop.begin(), loop.end());
    if (loop.size() >= 3)
      shape.holes.push_back(std::move(loop));
  }
  return shape;
}

Spot laid(Spot spot, Stance stance) {
  const Spot p{stance.mirrored ? -spot.x : spot.x, spot.z};
  switch (((stance.turn_deg % 360) + 360) % 360) {
  case 90:
    return {-p.z, p.x};
  case 180:
    return {-p.x, -p.z};
  case 270:
    return {p.z, -p.x};
  default:
    return p;
  }
}

Shape laid(const Shape& shape, Stance stance) {
  Shape result = shape;
  const auto lay = [stance](Loop& loop) {
    for (Spot& spot : loop)
      spot = laid(spot, stance);
    if (stance.mirrored)
      std::reverse(loop.begin(), loop.end());
  };
  lay(result.outline);
  for (Loop& hole : result.holes)
    lay(hole);
  return result;
}

Shape moved(Shape shape, Spot move) {
  for (Spot& spot : shape.outline)
    spot = spot + move;
  for (Loop& hole : shape.holes)
    for (Spot& spot : hole)
      spot = spot + move;
  return shape;
}

Extent extent(const Loop& loop) {
  if (loop.empty())
    return {};
  Extent box{loop[0].x, loop[0].z, loop[0].x, loop[0].z};
  for (const Spot& p : loop)
    box = {std::min(box.left, p.x), std::min(box.bottom, p.z), std::max(box.right, p.x), std::max(box.top, p.z)};
  return box;
}

std::int64_t doubled_area(const Loop& loop) {
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < loop.size(); ++i)
    sum += cross(loop[i] - loop[0], loop[(i + 1) % loop.size()] - loop[0]);
  return sum;
}

double area_mm2(const Shape& shape) {
  std::int64_t doubled = doubled_area(shape.outline);
  for (const Loop& hole : shape.holes)
    doubled += doubled_area(hole);
  return static_cast<double>(doubled) / 2 / (um_per_mm * um_per_mm);
}

Simpler simplified(const Loop& loop, std::size_t most_points) {
  if (loop.size() <= most_points)
    return {loop, 0};
  constexpr double finest_um = 10, coarser = 1.5;
  const Extent box = extent(loop);
  const double size = std::hypot(static_cast<double>(box.width()), static_cast<double>(box.height()));
  for (double tolerance = finest_um; tolerance < size; tolerance *= coarser)
    if (Loop simple = simplified_within(loop, tolerance); simple.size() <= most_points && !crosses_itself(simple))
      return {std::move(simple), tolerance};
  Loop corners{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
  if (doubled_area(loop) < 0)
    std::reverse(corners.begin(), corners.end());
  return {std::move(corners), size};
}

} // namespace fanwright::sheets
