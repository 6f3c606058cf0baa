// The no-fit region of one pair of pieces as a field: how deep a move lies in it, answered in constant time.
//
// A uniform grid holds, for each cell, the few edges that can be nearest to a point of the cell; the nearest one tells
// depth and side (side at a corner by the sum of its edges' normals: Baerentzen and Aanaes 2005). A search asks for
// places at random, so what counts is how little memory an answer touches.
#pragma once

#include "sheets/shape.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>
#include <vector>

namespace fanwright::sheets {

/// How deep a move lies in a region, and the shortest further move that leaves it, micrometres.
struct Push {
  double depth = 0, x = 0, z = 0;
};

class KeepOut {
  static constexpr double unit_steps = 127; ///< of a unit vector kept in two bytes

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

  struct Square {
    std::size_t column, row, span; ///< the cells under question
  };

  /// Of a cell deep inside, its highest bit set: the depth at its middle as the upper half of a float, and a unit
  /// vector in steps of 1 / 127, the way deeper. Of any other: where its list begins.
  struct Summary {
    std::uint32_t bits = 0;
    bool deep() const { return bits >> 31 != 0; }
    double depth() const { return std::bit_cast<float>(bits & 0x7fff0000u); }
    double per_x() const { return static_cast<std::int8_t>(bits >> 8); }
    double per_z() const { return static_cast<std::int8_t>(bits); }
  };

  struct Nearest {
    double away_x = 0, away_z = 0; ///< from the nearest point of the outline
    double distance = 0;
    bool outside = false;
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
  static double distance(const Edge& edge, double x, double z);
  void add_edges(const Loop& loop);
  void add_summary(std::size_t cell);
  std::uint32_t add_list(const std::vector<std::uint16_t>& edges);
  void fill(Square square, const std::vector<std::uint16_t>& candidates);

  double reach_ = 0;
  double left_ = 0, bottom_ = 0, right_ = 0, top_ = 0;
  double cells_per_x_ = 0, cells_per_z_ = 0, cell_width_ = 0, cell_height_ = 0;
  std::size_t side_ = 1;
  std::vector<Edge> edges_;
  std::vector<Corners> corners_;     ///< of the same edges
  std::vector<std::uint16_t> lists_; ///< of edges, each after its length; the first is empty
  std::vector<std::uint32_t> first_; ///< into lists_, by cell
  std::vector<Summary> summaries_;   ///< by cell
};

/// A search asks the same regions for places over and over: what most answers need stands in one line of the
/// processor's cache. Holds as long as the region does.
class alignas(64) KeepOut::Round {
public:
  Round(const KeepOut& region, double x, double z, double sign)
      : per_x_(sign * region.cells_per_x_), from_x_(-x * per_x_ - region.left_ * region.cells_per_x_),
        per_z_(sign * region.cells_per_z_), from_z_(-z * per_z_ - region.bottom_ * region.cells_per_z_),
        summaries_(region.summaries_.data()), region_(&region), side_(static_cast<std::uint32_t>(region.side_)),
        plane_x_(static_cast<float>(region.cell_width_ / unit_steps)),
        plane_z_(static_cast<float>(region.cell_height_ / unit_steps)) {}

  /// Where in the region's grid a piece at (x, z) lies; without a cell when clear of it.
  struct Found {
    const Round* round;
    const Summary* cell;
    double column, row;

    /// How deep; where the cell lies wholly deep inside, by the edge nearest to the cell's middle: off by grain() and
    /// half a per cent at most.
    double about_depth() const;
  };
  Found find(double x, double z) const {
    const double column = x * per_x_ + from_x_, row = z * per_z_ + from_z_;
    const bool inside = column > 0 && column < side_ && row > 0 && row < side_;
    return {this,
            inside ? summaries_ + static_cast<std::uint32_t>(row) * side_ + static_cast<std::uint32_t>(column)
                   : nullptr,
            column, row};
  }
  double about_depth(double x, double z) const {
    const Found found = find(x, z);
    return found.cell ? found.about_depth() : 0;
  }

  /// The shortest move that takes a piece at (x, z) out.
  Push push(double x, double z) const {
    const double sign = per_x_ < 0 ? -1 : 1;
    const Push push = region_->push(region_->x_at(x * per_x_ + from_x_), region_->z_at(z * per_z_ + from_z_));
    return {push.depth, sign * push.x, sign * push.z};
  }

  void set_weight(double weight) { weight_ = static_cast<float>(weight); }
  double weight() const { return weight_; } ///< of an overlap, for the search

private:
  double per_x_, from_x_, per_z_, from_z_; ///< from a place to the grid's columns and rows
  const Summary* summaries_;
  const KeepOut* region_;
  std::uint32_t side_;
  float plane_x_, plane_z_; ///< micrometres for a step of a summary's unit vector and one cell
  float weight_ = 1;
};

inline double KeepOut::Round::Found::about_depth() const {
  if (!cell->deep())
    return cell->bits == 0
               ? 0
               : round->region_->depth_near(round->region_->x_at(column), round->region_->z_at(row), cell->bits);
  const double along = column - static_cast<std::int32_t>(column) - 0.5,
               up = row - static_cast<std::int32_t>(row) - 0.5;
  return cell->depth() + cell->per_x() * round->plane_x_ * along + cell->per_z() * round->plane_z_ * up;
}

inline KeepOut::Round KeepOut::round(double x, double z, double sign) const { return {*this, x, z, sign}; }

} // namespace fanwright::sheets
