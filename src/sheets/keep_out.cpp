#include "sheets/keep_out.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace fanwright::sheets {

namespace {

/// A power of two: cells are found by quartering. About one edge in three cells along the outline.
std::size_t cells_a_side(std::size_t edges) { return edges <= 12 ? 16 : 32; }

struct Direction {
  double x = 0, z = 0;
};

/// Outward normal of an edge of a counter-clockwise loop.
Direction outward(Spot from, Spot to) {
  const double x = static_cast<double>(to.x - from.x), z = static_cast<double>(to.z - from.z),
               length = std::hypot(x, z);
  return {z / length, -x / length};
}

} // namespace

KeepOut::KeepOut(const std::vector<Loop>& region, double reach_um) : reach_(reach_um) {
  for (const Loop& loop : region)
    add_edges(loop);
  assert(edges_.size() <= std::numeric_limits<std::uint16_t>::max()); // outlines are simplified to far fewer
  side_ = cells_a_side(edges_.size());
  first_.assign(side_ * side_ + 1, 0);
  if (edges_.empty())
    return;
  Extent box = extent(region[0]);
  for (const Loop& loop : region) {
    const Extent more = extent(loop);
    box = {std::min(box.left, more.left), std::min(box.bottom, more.bottom), std::max(box.right, more.right),
           std::max(box.top, more.top)};
  }
  left_ = static_cast<double>(box.left) - reach_um, bottom_ = static_cast<double>(box.bottom) - reach_um;
  right_ = static_cast<double>(box.right) + reach_um, top_ = static_cast<double>(box.top) + reach_um;
  // A hair less than the whole, so that rounding never names a cell beyond the last.
  constexpr double hair = 1 - 1e-12;
  cells_per_x_ = static_cast<double>(side_) / (right_ - left_) * hair;
  cells_per_z_ = static_cast<double>(side_) / (top_ - bottom_) * hair;
  std::vector<std::uint16_t> all(edges_.size());
  std::iota(all.begin(), all.end(), std::uint16_t{0});
  std::vector<std::vector<std::uint16_t>> lists(side_ * side_);
  fill({0, 0, side_}, all, lists);
  for (std::size_t cell = 0; cell < lists.size(); ++cell) {
    near_.insert(near_.end(), lists[cell].begin(), lists[cell].end());
    first_[cell + 1] = static_cast<std::uint32_t>(near_.size());
  }
}

void KeepOut::add_edges(const Loop& loop) {
  const std::size_t size = loop.size();
  for (std::size_t i = 0; i < size; ++i) {
    const Spot before = loop[(i + size - 1) % size], from = loop[i], to = loop[(i + 1) % size],
               after = loop[(i + 2) % size];
    const Direction in = outward(before, from), normal = outward(from, to), out = outward(to, after);
    const double x = static_cast<double>(to.x - from.x), z = static_cast<double>(to.z - from.z);
    edges_.push_back({static_cast<double>(from.x), static_cast<double>(from.z), x, z, 1 / (x * x + z * z)});
    normals_.push_back({normal.x, normal.z, in.x + normal.x, in.z + normal.z, normal.x + out.x, normal.z + out.z});
  }
}

double KeepOut::distance(const Edge& edge, double x, double z) const {
  const double from_x = x - edge.x, from_z = z - edge.z;
  const double t = std::clamp((from_x * edge.along_x + from_z * edge.along_z) * edge.per_length2, 0.0, 1.0);
  return std::hypot(from_x - t * edge.along_x, from_z - t * edge.along_z);
}

/// An edge farther from the middle of a square than the nearest one by more than the square's diagonal is never the
/// nearest to any point of the square.
void KeepOut::fill(Cell cell, const std::vector<std::uint16_t>& candidates,
                   std::vector<std::vector<std::uint16_t>>& lists) {
  const double half = static_cast<double>(cell.span) / 2;
  const double x = left_ + (static_cast<double>(cell.column) + half) / cells_per_x_;
  const double z = bottom_ + (static_cast<double>(cell.row) + half) / cells_per_z_;
  const double radius = std::hypot(half / cells_per_x_, half / cells_per_z_) * (1 + 1e-9);
  std::vector<double> distances;
  double nearest = std::numeric_limits<double>::infinity();
  for (const std::uint16_t candidate : candidates) {
    distances.push_back(distance(edges_[candidate], x, z));
    nearest = std::min(nearest, distances.back());
  }
  std::vector<std::uint16_t> kept;
  for (std::size_t i = 0; i < candidates.size(); ++i)
    if (distances[i] <= nearest + 2 * radius)
      kept.push_back(candidates[i]);
  if (cell.span > 1) {
    const std::size_t part = cell.span / 2;
    for (const std::size_t row : {cell.row, cell.row + part})
      for (const std::size_t column : {cell.column, cell.column + part})
        fill({column, row, part}, kept, lists);
    return;
  }
  // Cells wholly clear of the region and its reach keep no edges.
  near_ = kept;
  const bool clear = nearest > radius + reach_ && depth_near(x, z, 0, static_cast<std::uint32_t>(near_.size())) == 0;
  near_.clear();
  if (!clear)
    lists[cell.row * side_ + cell.column] = std::move(kept);
}

KeepOut::Nearest KeepOut::nearest(double x, double z, std::uint32_t begin, std::uint32_t end) const {
  double best = std::numeric_limits<double>::infinity(), best_t = 0;
  Nearest near;
  for (std::uint32_t i = begin; i < end; ++i) {
    const Edge& edge = edges_[near_[i]];
    const double from_x = x - edge.x, from_z = z - edge.z;
    const double t = std::clamp((from_x * edge.along_x + from_z * edge.along_z) * edge.per_length2, 0.0, 1.0);
    const double rest_x = from_x - t * edge.along_x, rest_z = from_z - t * edge.along_z;
    const double distance2 = rest_x * rest_x + rest_z * rest_z;
    if (distance2 < best) {
      best = distance2, best_t = t;
      near.away_x = rest_x, near.away_z = rest_z, near.edge = near_[i];
    }
  }
  const Normals& normals = normals_[near.edge];
  const double side = best_t <= 0   ? near.away_x * normals.from_x + near.away_z * normals.from_z
                      : best_t >= 1 ? near.away_x * normals.to_x + near.away_z * normals.to_z
                                    : near.away_x * normals.x + near.away_z * normals.z;
  near.outside = side > 0;
  near.distance = std::sqrt(best);
  return near;
}

Push KeepOut::push(double x, double z) const {
  if (x <= left_ || x >= right_ || z <= bottom_ || z >= top_)
    return {};
  const std::size_t cell = cell_of(x, z);
  if (first_[cell] == first_[cell + 1])
    return {};
  const Nearest near = nearest(x, z, first_[cell], first_[cell + 1]);
  const double depth = reach_ + (near.outside ? -near.distance : near.distance);
  if (depth <= 0)
    return {};
  // On the outline itself the way out is the edge's normal.
  constexpr double on_outline_um = 1e-3;
  const Normals& normals = normals_[near.edge];
  if (near.distance < on_outline_um)
    return {depth, depth * normals.x, depth * normals.z};
  const double factor = (near.outside ? depth : -depth) / near.distance;
  return {depth, near.away_x * factor, near.away_z * factor};
}

} // namespace fanwright::sheets
