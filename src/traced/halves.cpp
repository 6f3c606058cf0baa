#include "traced/halves.h"

#include "fit/check_limits.h"
#include "leaf/contour.h"
#include "traced/axis.h"
#include "traced/bitmap.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::traced {
namespace {

using leaf::Box;

Box box_of(const Areas& areas) {
  Box box{1e300, -1e300, 1e300, -1e300};
  for (const Area& area : areas) {
    const Box one = leaf::bounds(area.outline);
    box = {std::min(box.left, one.left), std::max(box.right, one.right), std::min(box.bottom, one.bottom),
           std::max(box.top, one.top)};
  }
  return box;
}

/// Paper kept along the spine: twice what a knife can leave, as the hub takes some of it.
constexpr double spine_bridge_mm = 2 * fit::limit::knife_bridge_mm;

Ring rectangle(double left, double right, double bottom, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

Areas right_of_spine(const Areas& upright) {
  const Box box = box_of(upright);
  Areas right = shared(upright, {{rectangle(0, std::max(box.right, 1.0) + 1, box.bottom - 1, box.top + 1), {}}});
  for (Area& area : right)
    for (Point& p : area.outline)
      p.x = std::max(p.x, 0.0);
  return right;
}

double squared_distance(const Areas& areas, Point p) {
  double best = 1e300;
  const auto look = [&](const Ring& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const Point a = ring[k], b = ring[k + 1 == ring.size() ? 0 : k + 1];
      const double dx = b.x - a.x, dz = b.z - a.z, squared = dx * dx + dz * dz;
      const double t = squared > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / squared, 0.0, 1.0) : 0.0;
      const double x = a.x + t * dx - p.x, z = a.z + t * dz - p.z;
      best = std::min(best, x * x + z * z);
    }
  };
  for (const Area& area : areas) {
    look(area.outline);
    for (const Ring& hole : area.holes)
      look(hole);
  }
  return best;
}

/// Where one side is paper and the other is not, the nearer edge decides.
Areas mean_of(const Areas& one, const Areas& other) {
  constexpr double cells = 1400; // along the longer way: 0.13 mm on a piece of 180 mm
  Areas both = one;
  both.insert(both.end(), other.begin(), other.end());
  const Box box = box_of(both);
  const double cell = std::max(box.width(), box.height()) / cells;
  // The spine becomes the middle of the picture, so that no corner of it is rounded.
  const int half = static_cast<int>(box.right / cell) + 3;
  const int height = static_cast<int>(box.height() / cell) + 6;
  const auto gridded = [&](const Areas& side) {
    Frame frame;
    frame.scale = 1 / cell;
    frame.origin = {-half * cell, box.bottom - 3 * cell};
    Frame back = frame;
    back.mirrored = true;
    back.origin.x = half * cell;
    return drawn(united(placed(side, frame), placed(side, back)), 2 * half, height);
  };
  Bitmap mean = gridded(one);
  const Bitmap second = gridded(other);
  for (int row = 0; row < height; ++row)
    for (int column = half; column < 2 * half; ++column) {
      if (mean.at(column, row) != second.at(column, row)) {
        const Point p{(column - half + 0.5) * cell, box.bottom + (height - 1 - row + 0.5 - 3) * cell};
        const bool in_one = mean.at(column, row) != 0;
        const double to_one = squared_distance(one, p), to_other = squared_distance(other, p);
        mean.at(column, row) = (in_one ? to_one > to_other : to_other > to_one) ? 1 : 0;
      }
      mean.at(2 * half - 1 - column, row) = mean.at(column, row);
    }
  Areas traced = outlines_of(mean, 4);
  Frame to_mm;
  to_mm.scale = cell;
  to_mm.origin = {static_cast<double>(half), 3 - box.bottom / cell};
  return right_of_spine(placed(traced, to_mm));
}

bool reaches_spine(const Area& area) {
  constexpr double touching_mm = 1e-6;
  return std::any_of(area.outline.begin(), area.outline.end(), [](Point p) { return p.x <= touching_mm; });
}

/// Heights between which the area touches the spine, over all gaps.
std::pair<double, double> spine_ends(const Area& area) {
  double lowest = std::numeric_limits<double>::max(), highest = -lowest;
  for (const Point& p : area.outline)
    if (p.x <= 1e-6) {
      lowest = std::min(lowest, p.z);
      highest = std::max(highest, p.z);
    }
  return {lowest, highest};
}

/// Stretches of the spine without paper between its ends.
bool gapes(const Area& area) {
  std::size_t stretches = 0;
  for (std::size_t k = 0; k < area.outline.size(); ++k) {
    const bool here = area.outline[k].x <= 1e-6;
    const bool next = area.outline[(k + 1) % area.outline.size()].x <= 1e-6;
    stretches += here && !next ? 1 : 0;
  }
  return stretches > 1;
}

} // namespace

Areas side_of(const Areas& upright, Side side) {
  Frame back;
  back.mirrored = true;
  const Areas right = right_of_spine(upright);
  if (side == Side::right)
    return right;
  Areas left = right_of_spine(placed(upright, back));
  return side == Side::left || left.empty() || right.empty() ? left : mean_of(left, right);
}

Areas lost_cut_outs(const Areas& side, const Areas& mean) {
  constexpr double lost_share = 0.5, speck_mm2 = 0.8;
  Areas lost;
  for (const Area& area : side)
    for (const Ring& hole : area.holes) {
      const Area inside{Ring(hole.rbegin(), hole.rend()), {}};
      if (area_of(inside) >= speck_mm2 && area_of(shared({inside}, mean)) > lost_share * area_of(inside))
        lost.push_back(inside);
    }
  return lost;
}

Half at_spine(const Areas& side, double edge_mm) {
  Half half;
  Areas pieces = side;
  std::stable_sort(pieces.begin(), pieces.end(), [](const Area& a, const Area& b) { return area_of(a) > area_of(b); });
  if (edge_mm > 0 && !pieces.empty()) {
    const Areas inside = shared({pieces.front()}, {{rectangle(0, edge_mm, -1e5, 1e5), {}}});
    if (!inside.empty()) {
      const Box box = box_of(inside);
      pieces = united(pieces, {{rectangle(0, edge_mm, box.bottom, box.top), {}}});
    }
  }
  const auto main = std::find_if(pieces.begin(), pieces.end(), reaches_spine);
  if (main == pieces.end())
    return half;
  // All pieces that stand on the spine are held together by it.
  double lowest = 1e300, highest = -1e300;
  bool apart = gapes(*main);
  for (const Area& piece : pieces)
    if (reaches_spine(piece)) {
      const auto [foot, top] = spine_ends(piece);
      lowest = std::min(lowest, foot);
      highest = std::max(highest, top);
      apart = apart || &piece != &*main;
    }
  Areas whole = pieces;
  if (apart) {
    const Areas strip = {{rectangle(0, spine_bridge_mm, lowest, highest), {}}};
    whole = united(pieces, strip);
    half.added = without(strip, pieces);
    half.notes.emplace_back("A gap or cut-out across the spine was filled 4 mm wide on each half, so that the spine "
                            "stays whole.");
  }
  std::stable_sort(whole.begin(), whole.end(), [](const Area& a, const Area& b) { return area_of(a) > area_of(b); });
  const auto kept = std::find_if(whole.begin(), whole.end(), reaches_spine);
  half.area = *kept;
  for (const Area& piece : whole)
    if (&piece != &*kept)
      half.dropped.push_back(piece);
  return half;
}

} // namespace fanwright::traced
