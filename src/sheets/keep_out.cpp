#include "sheets/keep_out.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <map>
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

KeepOut::KeepOut(const std::vector<Loop>& region, double reach_um) : reach_(reach_um), lists_{0}, planes_(1) {
  for (const Loop& loop : region)
    add_edges(loop);
  assert(edges_.size() <= std::numeric_limits<std::uint16_t>::max()); // outlines are simplified to far fewer
  side_ = cells_a_side(edges_.size());
  first_.assign(side_ * side_, 0);
  summaries_.assign(side_ * side_ + parts, clear);
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
  cell_width_ = 1 / cells_per_x_, cell_height_ = 1 / cells_per_z_;
  std::vector<std::uint16_t> all(edges_.size());
  std::iota(all.begin(), all.end(), std::uint16_t{0});
  fill({0, 0, static_cast<double>(side_)}, all);
  add_summaries();
}

double KeepOut::grain() const { return std::hypot(cell_width_, cell_height_); }

/// The way deeper from the outline's point nearest to a place, kept for the places round it.
KeepOut::Plane KeepOut::plane_of(const Nearest& near, double column, double row) const {
  const double inward = (near.outside ? -1 : 1) / near.distance;
  const double per_column = near.away_x * inward * cell_width_, per_row = near.away_z * inward * cell_height_;
  const double depth = reach_ + (near.outside ? -near.distance : near.distance);
  return {static_cast<float>(depth - per_column * column - per_row * row), static_cast<float>(per_column),
          static_cast<float>(per_row)};
}

/// Whether the planes tell the depth at the square's corners, the middles of its sides and its own.
bool KeepOut::serves(Summary planes, const Square& square, std::uint32_t list) const {
  constexpr double negligible_um = 2;
  const Plane* const one = &planes_[planes & which_plane];
  const Plane* const other = one + ((planes & two_planes) != 0);
  for (const double up : {0.0, 0.5, 1.0})
    for (const double along : {0.0, 0.5, 1.0}) {
      const double column = square.column + along * square.side, row = square.row + up * square.side;
      const auto at = static_cast<float>(column), high = static_cast<float>(row);
      const double told = std::max(0.0F, std::min(one->depth(at, high), other->depth(at, high)));
      if (std::abs(told - depth_near(x_at(column), z_at(row), list)) > negligible_um)
        return false;
    }
  return true;
}

KeepOut::Plane KeepOut::plane_of(const Edge& edge) const {
  const double per_length = std::sqrt(static_cast<double>(edge.per_length2));
  const double in_x = -edge.along_z * per_length, in_z = edge.along_x * per_length;
  return {static_cast<float>(reach_ + in_x * (left_ - edge.x) + in_z * (bottom_ - edge.z)),
          static_cast<float>(in_x * cell_width_), static_cast<float>(in_z * cell_height_)};
}

void KeepOut::add_summaries() {
  for (const Edge& edge : edges_)
    planes_.push_back(plane_of(edge));
  Pairs pairs;
  for (std::size_t cell = 0; cell < first_.size(); ++cell) {
    const std::size_t column = cell % side_, row = cell / side_;
    const Square square{static_cast<double>(column), static_cast<double>(row), 1};
    if (lists_[first_[cell]] == 0)
      continue;
    summaries_[cell] = summary_of(square, first_[cell], pairs);
    if (summaries_[cell] == edges_alone)
      summaries_[cell] = parts_of(square, first_[cell], pairs);
  }
}

KeepOut::Summary KeepOut::summary_of(const Square& square, std::uint32_t list, Pairs& pairs) {
  const std::size_t next = planes_.size();
  if (next + 2 > which_plane)
    return edges_alone;
  const double column = square.column + square.side / 2, row = square.row + square.side / 2;
  const Nearest near = nearest(x_at(column), z_at(row), list);
  if (!near.outside && near.distance >= grain() / 2 * (1 + square.side)) {
    if (!near.corner)
      return deep | static_cast<Summary>(1 + near.edge);
    planes_.push_back(plane_of(near, column, row));
    return deep | static_cast<Summary>(next);
  }
  // All edges of the square must have their say: between the places that are looked at, a slit may lie.
  const std::uint16_t* const edges = &lists_[list];
  if (edges[0] > 2)
    return edges_alone;
  const std::uint16_t one = edges[1], other = edges[edges[0]];
  if (one == other)
    return serves(1 + one, square, list) ? 1 + one : edges_alone;
  const auto [known, fresh] = pairs.try_emplace({one, other}, two_planes | next);
  if (fresh)
    planes_.insert(planes_.end(), {planes_[1 + one], planes_[1 + other]});
  return serves(known->second, square, list) ? known->second : edges_alone;
}

/// Each part of the cell has fewer edges that can be nearest to it.
KeepOut::Summary KeepOut::parts_of(const Square& cell, std::uint32_t list, Pairs& pairs) {
  const std::size_t block = summaries_.size() / parts;
  if (block >= which_parts)
    return edges_alone;
  const std::vector<std::uint16_t> edges(&lists_[list + 1], &lists_[list + 1] + lists_[list]);
  constexpr double side = 1.0 / parts_a_side;
  for (std::size_t part = 0; part < parts; ++part) {
    const std::size_t along = part % parts_a_side, up = part / parts_a_side;
    const Square square{cell.column + side * static_cast<double>(along), cell.row + side * static_cast<double>(up),
                        side};
    const Candidates candidates = candidates_in(square, edges);
    const std::uint32_t own = add_list(candidates.edges);
    summaries_.push_back(is_clear(square, candidates.nearest, own) ? clear : summary_of(square, own, pairs));
    lists_.resize(own);
  }
  return divided | static_cast<Summary>(block);
}

void KeepOut::add_edges(const Loop& loop) {
  const std::size_t size = loop.size();
  const auto whole = [](std::int64_t um) { return static_cast<std::int32_t>(um); };
  for (std::size_t i = 0; i < size; ++i) {
    const Spot before = loop[(i + size - 1) % size], from = loop[i], to = loop[(i + 1) % size],
               after = loop[(i + 2) % size], along = to - from;
    const Direction in = outward(before, from), normal = outward(from, to), out = outward(to, after);
    edges_.push_back({whole(from.x), whole(from.z), whole(along.x), whole(along.z),
                      static_cast<float>(1 / static_cast<double>(dot(along, along)))});
    corners_.push_back({static_cast<float>(in.x + normal.x), static_cast<float>(in.z + normal.z),
                        static_cast<float>(normal.x + out.x), static_cast<float>(normal.z + out.z)});
  }
}

double KeepOut::distance(const Edge& edge, double x, double z) {
  const double from_x = x - edge.x, from_z = z - edge.z;
  const double t = std::clamp((from_x * edge.along_x + from_z * edge.along_z) * edge.per_length2, 0.0, 1.0);
  return std::hypot(from_x - t * edge.along_x, from_z - t * edge.along_z);
}

std::uint32_t KeepOut::add_list(const std::vector<std::uint16_t>& edges) {
  const auto list = static_cast<std::uint32_t>(lists_.size());
  lists_.push_back(static_cast<std::uint16_t>(edges.size()));
  lists_.insert(lists_.end(), edges.begin(), edges.end());
  return list;
}

/// An edge farther from the middle of a square than the nearest one by more than the square's diagonal is never the
/// nearest to any point of the square.
KeepOut::Candidates KeepOut::candidates_in(const Square& square, const std::vector<std::uint16_t>& edges) const {
  const double x = x_at(square.column + square.side / 2), z = z_at(square.row + square.side / 2);
  std::vector<double> distances;
  Candidates candidates{{}, std::numeric_limits<double>::infinity()};
  for (const std::uint16_t edge : edges) {
    distances.push_back(distance(edges_[edge], x, z));
    candidates.nearest = std::min(candidates.nearest, distances.back());
  }
  for (std::size_t i = 0; i < edges.size(); ++i)
    if (distances[i] <= candidates.nearest + square.side * grain() * (1 + 1e-9))
      candidates.edges.push_back(edges[i]);
  return candidates;
}

/// Whether the square is wholly clear of the region and its reach.
bool KeepOut::is_clear(const Square& square, double nearest, std::uint32_t list) const {
  return nearest > square.side / 2 * grain() * (1 + 1e-9) + reach_ &&
         depth_near(x_at(square.column + square.side / 2), z_at(square.row + square.side / 2), list) == 0;
}

void KeepOut::fill(const Square& square, const std::vector<std::uint16_t>& edges) {
  const Candidates candidates = candidates_in(square, edges);
  if (square.side > 1) {
    const double half = square.side / 2;
    for (const double row : {square.row, square.row + half})
      for (const double column : {square.column, square.column + half})
        fill({column, row, half}, candidates.edges);
    return;
  }
  const std::uint32_t list = add_list(candidates.edges);
  // Clear cells keep no edges.
  if (is_clear(square, candidates.nearest, list))
    lists_.resize(list);
  else
    first_[static_cast<std::size_t>(square.row) * side_ + static_cast<std::size_t>(square.column)] = list;
}

KeepOut::Nearest KeepOut::nearest(double x, double z, std::uint32_t list) const {
  double best = std::numeric_limits<double>::infinity(), best_t = 0;
  Nearest near;
  const std::uint16_t* const numbers = &lists_[list];
  for (std::uint16_t i = 1; i <= numbers[0]; ++i) {
    const Edge& edge = edges_[numbers[i]];
    const double from_x = x - edge.x, from_z = z - edge.z, along_x = edge.along_x, along_z = edge.along_z;
    const double t = std::clamp((from_x * along_x + from_z * along_z) * edge.per_length2, 0.0, 1.0);
    const double rest_x = from_x - t * along_x, rest_z = from_z - t * along_z;
    const double distance2 = rest_x * rest_x + rest_z * rest_z;
    if (distance2 < best) {
      best = distance2, best_t = t;
      near.away_x = rest_x, near.away_z = rest_z, near.edge = numbers[i];
    }
  }
  const Edge& edge = edges_[near.edge];
  near.corner = best_t <= 0 || best_t >= 1;
  if (!near.corner) {
    near.outside = near.away_x * edge.along_z - near.away_z * edge.along_x > 0;
  } else {
    const Corners& corners = corners_[near.edge];
    near.outside = best_t <= 0 ? near.away_x * corners.from_x + near.away_z * corners.from_z > 0
                               : near.away_x * corners.to_x + near.away_z * corners.to_z > 0;
  }
  near.distance = std::sqrt(best);
  return near;
}

Push KeepOut::push(double x, double z) const {
  if (outside_box(x, z))
    return {};
  const std::uint32_t list = first_[cell_of(x, z)];
  if (lists_[list] == 0)
    return {};
  const Nearest near = nearest(x, z, list);
  const double depth = reach_ + (near.outside ? -near.distance : near.distance);
  if (depth <= 0)
    return {};
  // On the outline itself the way out is the edge's normal.
  constexpr double on_outline_um = 1e-3;
  if (near.distance < on_outline_um) {
    const Edge& edge = edges_[near.edge];
    const double per_length = std::sqrt(static_cast<double>(edge.per_length2));
    return {depth, depth * edge.along_z * per_length, -depth * edge.along_x * per_length};
  }
  const double factor = (near.outside ? depth : -depth) / near.distance;
  return {depth, near.away_x * factor, near.away_z * factor};
}

} // namespace fanwright::sheets
