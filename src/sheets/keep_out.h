// The no-fit region of one pair of pieces as a field: how deep a move lies in it, answered in constant time.
//
// A uniform grid holds, for each cell, the few edges that can be nearest to a point of the cell; the nearest one tells
// depth and side (side at a corner by the sum of its edges' normals: Baerentzen and Aanaes 2005). A search asks for
// places at random, so what counts is how little memory an answer touches.
#pragma once

#include "sheets/shape.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace fanwright::sheets {

/// How deep a move lies in a region, and the shortest further move that leaves it, micrometres.
struct Push {
  double depth = 0, x = 0, z = 0;
};

/// The line that bounds a region near a place: how deep the place lies behind it, micrometres, negative in front; and
/// the unit way out.
struct Side {
  double depth = 0, x = 0, z = 0;
};

class KeepOut {
public:
  /// `region` as no_fit_region gives it. Moves are told apart up to `reach_um` outside it; farther ones are just clear.
  KeepOut(const std::vector<Loop>& region, double reach_um);

  /// How deep the move lies in the region grown by the reach, micrometres: the length of the shortest further move that
  /// leaves it. 0 when clear.
  double depth(double x, double z) const { return outside_box(x, z) ? 0 : depth_near(x, z, first_[cell_of(x, z)]); }

  Push push(double x, double z) const;

  /// The region laid round a piece that lies at (x, z); `sign` is -1 where it is turned by 180 degrees.
  class Round;
  Round round(double x, double z, double sign) const;

  double left() const { return left_; }
  double bottom() const { return bottom_; }
  double right() const { return right_; }
  double top() const { return top_; }

  /// Diagonal of a grid cell, micrometres.
  double grain() const;

private:
  /// Whole micrometres, and one over the squared length.
  struct Edge {
    std::int32_t x, z, along_x, along_z;
    float per_length2;
  };
  /// Sums of the outward unit normals at the corners where an edge begins and ends.
  struct Corners {
    float from_x, from_z, to_x, to_z;
  };

  /// One or more cells, or a part of one, in columns and rows.
  struct Square {
    double column, row, side;
  };
  /// The edges that can be nearest to a point of a square.
  struct Candidates {
    std::vector<std::uint16_t> edges;
    double nearest; ///< to the square's middle, micrometres
  };

  /// Depth at a place given in columns and rows of the grid: how far behind a line.
  struct alignas(16) Plane {
    float at = 0, per_column = 0, per_row = 0;
    float depth(float column, float row) const { return at + per_column * column + per_row * row; }
  };

  /// What tells the depth in a square: a plane, or the less deep of two that follow each other. The first plane is
  /// level at no depth: for squares clear of the region. `deep` where the plane is that of the square's middle. A
  /// `divided` cell names the sixteen that tell it, part by part. The rest is told by `edges_alone`.
  using Summary = std::uint16_t;
  static constexpr Summary clear = 0, which_plane = 0x1fff, two_planes = 0x2000, deep = 0x4000, divided = 0x8000,
                           which_parts = 0x7fff, edges_alone = 0xffff;
  using Pairs = std::map<std::pair<std::uint16_t, std::uint16_t>, Summary>;
  static constexpr std::size_t parts_a_side = 4, parts = parts_a_side * parts_a_side;

  struct Nearest {
    double away_x = 0, away_z = 0; ///< from the nearest point of the outline
    double distance = 0;
    bool outside = false, corner = false;
    std::uint16_t edge = 0;
  };

  bool outside_box(double x, double z) const { return x <= left_ || x >= right_ || z <= bottom_ || z >= top_; }
  double x_at(double column) const { return left_ + column * cell_width_; }
  double z_at(double row) const { return bottom_ + row * cell_height_; }
  std::size_t cell_of(double x, double z) const {
    return static_cast<std::uint32_t>((z - bottom_) * cells_per_z_) * side_ +
           static_cast<std::uint32_t>((x - left_) * cells_per_x_);
  }
  Nearest nearest(double x, double z, std::uint32_t list) const;
  double depth_near(double x, double z, std::uint32_t list) const {
    if (lists_[list] == 0)
      return 0;
    const Nearest near = nearest(x, z, list);
    return std::max(0.0, reach_ + (near.outside ? -near.distance : near.distance));
  }
  Plane plane_of(const Edge& edge) const;
  Plane plane_of(const Nearest& near, double column, double row) const;
  bool serves(Summary planes, const Square& square, std::uint32_t list) const;
  void add_summaries();
  Summary summary_of(const Square& square, std::uint32_t list, Pairs& pairs);
  Summary parts_of(const Square& cell, std::uint32_t list, Pairs& pairs);
  static double distance(const Edge& edge, double x, double z);
  void add_edges(const Loop& loop);
  std::uint32_t add_list(const std::vector<std::uint16_t>& edges);
  Candidates candidates_in(const Square& square, const std::vector<std::uint16_t>& edges) const;
  bool is_clear(const Square& square, double nearest, std::uint32_t list) const;
  void fill(const Square& square, const std::vector<std::uint16_t>& edges);

  double reach_ = 0;
  double left_ = 0, bottom_ = 0, right_ = 0, top_ = 0;
  double cells_per_x_ = 0, cells_per_z_ = 0, cell_width_ = 0, cell_height_ = 0;
  std::size_t side_ = 1;
  std::vector<Edge> edges_;
  std::vector<Corners> corners_;     ///< of the same edges
  std::vector<std::uint16_t> lists_; ///< of edges, each after its length; the first is empty
  std::vector<std::uint32_t> first_; ///< into lists_, by cell
  std::vector<Summary> summaries_;   ///< by cell; then sixteen for places beside the grid; then parts
  std::vector<Plane> planes_;        ///< the level one, those of the edges, then what else squares name
};

/// A search asks the same regions for places over and over: what most answers need stands in one line of the
/// processor's cache. Holds as long as the region does.
class alignas(64) KeepOut::Round {
public:
  Round(const KeepOut& region, double x, double z, double sign)
      : per_x_(sign * region.cells_per_x_), from_x_(-x * per_x_ - region.left_ * region.cells_per_x_),
        per_z_(sign * region.cells_per_z_), from_z_(-z * per_z_ - region.bottom_ * region.cells_per_z_),
        summaries_(region.summaries_.data()), planes_(region.planes_.data()), region_(&region),
        side_(static_cast<std::uint32_t>(region.side_)) {}

  /// How deep a piece at (x, z) lies. Where shallower than half of grain(), right to 2 micrometres at nine places of a
  /// cell, and all but always between them (there off by half of grain() at most); elsewhere off by grain() at most.
  float about_depth(double x, double z) const;

  /// The side that is nearest to a piece at (x, z): as right as the depth where shallow, and where deep exact or, with
  /// `deep_approx`, as right as the depth. Nothing where clear, but for what its square knows of a side nearby.
  std::optional<Side> about_side(double x, double z, bool deep_approx = false) const;

  /// The same, exact wherever the piece lies; nothing where it is clear.
  std::optional<Side> side(double x, double z) const;

  void set_weight(double weight) { weight_ = static_cast<float>(weight); }
  float weight() const { return weight_; } ///< of an overlap, for the search

private:
  struct Found {
    Summary summary;
    std::uint32_t cell;
    float column, row;
  };
  Found find(double x, double z) const {
    // One added and taken away again: what lies before the first column or row is no cell.
    const double column = x * per_x_ + from_x_, row = z * per_z_ + from_z_;
    const auto whole_column = static_cast<std::uint32_t>(static_cast<std::int32_t>(column + 1) - 1);
    const auto whole_row = static_cast<std::uint32_t>(static_cast<std::int32_t>(row + 1) - 1);
    const bool inside = (whole_column < side_) & (whole_row < side_);
    const std::uint32_t cell = inside ? whole_row * side_ + whole_column : side_ * side_;
    Summary summary = summaries_[cell];
    if ((summary & divided) && summary != edges_alone)
      summary = summaries_[(summary & which_parts) * parts + part_of(row - whole_row) * parts_a_side +
                           part_of(column - whole_column)];
    return {summary, cell, static_cast<float>(column), static_cast<float>(row)};
  }
  static std::uint32_t part_of(double share) {
    return static_cast<std::uint32_t>(static_cast<std::int32_t>(share * parts_a_side));
  }

  double per_x_, from_x_, per_z_, from_z_; ///< from a place to the grid's columns and rows
  const Summary* summaries_;
  const Plane* planes_;
  const KeepOut* region_;
  std::uint32_t side_;
  float weight_ = 1;
};

inline float KeepOut::Round::about_depth(double x, double z) const {
  const Found found = find(x, z);
  if (found.summary == edges_alone)
    return static_cast<float>(
        region_->depth_near(region_->x_at(found.column), region_->z_at(found.row), region_->first_[found.cell]));
  const Plane* const one = planes_ + (found.summary & which_plane);
  const Plane* const other = one + ((found.summary & two_planes) != 0);
  return std::max(0.0F, std::min(one->depth(found.column, found.row), other->depth(found.column, found.row)));
}

inline std::optional<Side> KeepOut::Round::about_side(double x, double z, bool deep_approx) const {
  const Found found = find(x, z);
  if (found.summary == clear)
    return {};
  if (found.summary != edges_alone && (deep_approx || !(found.summary & deep))) {
    const Plane* const one = planes_ + (found.summary & which_plane);
    const Plane* const other = one + ((found.summary & two_planes) != 0);
    const float depth = one->depth(found.column, found.row), other_depth = other->depth(found.column, found.row);
    const Plane& nearer = depth < other_depth ? *one : *other;
    return Side{std::min(depth, other_depth), -nearer.per_column * per_x_, -nearer.per_row * per_z_};
  }
  return side(x, z);
}

inline std::optional<Side> KeepOut::Round::side(double x, double z) const {
  const Push push = region_->push((x * per_x_ + from_x_) * region_->cell_width_ + region_->left_,
                                  (z * per_z_ + from_z_) * region_->cell_height_ + region_->bottom_);
  if (push.depth <= 0)
    return {};
  const double per_depth = (per_x_ < 0 ? -1 : 1) / push.depth;
  return Side{push.depth, per_depth * push.x, per_depth * push.z};
}

inline KeepOut::Round KeepOut::round(double x, double z, double sign) const { return {*this, x, z, sign}; }

} // namespace fanwright::sheets
