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

struct Edge {
  Point from, to;
};

std::vector<Edge> edges_of(const Areas& areas) {
  std::vector<Edge> edges;
  const auto add = [&](const Ring& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k)
      edges.push_back({ring[k], ring[k + 1 == ring.size() ? 0 : k + 1]});
  };
  for (const Area& area : areas) {
    add(area.outline);
    for (const Ring& hole : area.holes)
      add(hole);
  }
  return edges;
}

double squared_distance(const Edge& edge, Point p) {
  const double dx = edge.to.x - edge.from.x, dz = edge.to.z - edge.from.z, squared = dx * dx + dz * dz;
  const double t =
      squared > 0 ? std::clamp(((p.x - edge.from.x) * dx + (p.z - edge.from.z) * dz) / squared, 0.0, 1.0) : 0.0;
  const double x = edge.from.x + t * dx - p.x, z = edge.from.z + t * dz - p.z;
  return x * x + z * z;
}

double squared_distance(const std::vector<Edge>& edges, Point p) {
  double best = 1e300;
  for (const Edge& edge : edges)
    best = std::min(best, squared_distance(edge, p));
  return best;
}

/// The edges among which the nearest one is for every place within `reach` of `middle`: a distance changes by no more
/// than the way gone.
std::vector<Edge> nearest_within(const std::vector<Edge>& edges, Point middle, double reach) {
  const double furthest = std::sqrt(squared_distance(edges, middle)) + 2 * reach;
  std::vector<Edge> found;
  for (const Edge& edge : edges)
    if (squared_distance(edge, middle) <= furthest * furthest * (1 + 1e-12))
      found.push_back(edge);
  return found;
}

/// A grid whose columns from `half` on lie right of the spine.
struct MeanGrid {
  double cell = 1, bottom = 0; ///< mm; z of the lowest row
  int half = 0, height = 0;

  Point at(int column, int row) const { return {(column - half + 0.5) * cell, bottom + (height - row - 0.5) * cell}; }
};

/// Of the pixels of a block where the sides differ, those further inside one side than outside the other become ink.
void decide(const MeanGrid& grid, const std::vector<Edge>& one, const std::vector<Edge>& other, const Bitmap& second,
            int left, int top, int block, Bitmap& mean) {
  const int right = std::min(left + block, 2 * grid.half), bottom = std::min(top + block, grid.height);
  std::vector<Edge> near_one, near_other;
  for (int row = top; row < bottom; ++row)
    for (int column = left; column < right; ++column) {
      if (mean.at(column, row) == second.at(column, row))
        continue;
      if (near_one.empty()) {
        const Point low = grid.at(left, bottom - 1), high = grid.at(right - 1, top);
        const Point middle{(low.x + high.x) / 2, (low.z + high.z) / 2};
        const double reach = std::hypot(high.x - low.x, high.z - low.z) / 2;
        near_one = nearest_within(one, middle, reach);
        near_other = nearest_within(other, middle, reach);
      }
      const Point p = grid.at(column, row);
      const double to_one = squared_distance(near_one, p), to_other = squared_distance(near_other, p);
      mean.at(column, row) = (mean.at(column, row) != 0 ? to_one > to_other : to_other > to_one) ? 1 : 0;
    }
}

/// Where one side is paper and the other is not, the nearer edge decides.
Areas mean_of(const Areas& one, const Areas& other) {
  constexpr double cells = 1400; // along the longer way: 0.13 mm on a piece of 180 mm
  constexpr int block = 16;
  Areas both = one;
  both.insert(both.end(), other.begin(), other.end());
  const Box box = box_of(both);
  MeanGrid grid;
  grid.cell = std::max(box.width(), box.height()) / cells;
  grid.bottom = box.bottom - 3 * grid.cell;
  // The spine becomes the middle of the picture, so that no corner of it is rounded.
  grid.half = static_cast<int>(box.right / grid.cell) + 3;
  grid.height = static_cast<int>(box.height() / grid.cell) + 6;
  const auto gridded = [&](const Areas& side) {
    Frame frame;
    frame.scale = 1 / grid.cell;
    frame.origin = {-grid.half * grid.cell, grid.bottom};
    Frame back = frame;
    back.mirrored = true;
    back.origin.x = grid.half * grid.cell;
    return drawn(united(placed(side, frame), placed(side, back)), 2 * grid.half, grid.height);
  };
  Bitmap mean = gridded(one);
  const Bitmap second = gridded(other);
  const std::vector<Edge> one_edges = edges_of(one), other_edges = edges_of(other);
  for (int top = 0; top < grid.height; top += block)
    for (int left = grid.half; left < 2 * grid.half; left += block)
      decide(grid, one_edges, other_edges, second, left, top, block, mean);
  for (int row = 0; row < grid.height; ++row)
    for (int column = grid.half; column < 2 * grid.half; ++column)
      mean.at(2 * grid.half - 1 - column, row) = mean.at(column, row);
  Areas traced = outlines_of(mean, 4);
  Frame to_mm;
  to_mm.scale = grid.cell;
  to_mm.origin = {static_cast<double>(grid.half), -grid.bottom / grid.cell};
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
