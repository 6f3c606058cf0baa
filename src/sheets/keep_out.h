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
public:
  /// `region` as no_fit_region gives it. Moves are told apart up to `reach_um` outside it; farther ones are just clear.
  KeepOut(const std::vector<Loop>& region, double reach_um);

  /// How deep the move lies in the region grown by the reach, micrometres: the length of the shortest further move that
  /// leaves it. 0 when clear.
  double depth(double x, double z) const {
    return outside_box(x, z) ? 0 : depth_near(x, z, first_[place_of(x, z).cell]);
  }

  /// The same, but where the move's grid cell lies wholly deep inside, by the edge nearest to the cell's middle: off by
  /// grain() at most. Touches a third of the memory.
  double about_depth(double x, double z) const {
    if (outside_box(x, z))
      return 0;
    const Place place = place_of(x, z);
    const Summary& summary = summaries_[place.cell];
    if (!summary.deep())
      return depth_near(x, z, summary.list_or_depth);
    return static_cast<double>(std::bit_cast<float>(summary.list_or_depth)) + summary.per_x * place.x * plane_per_x_ +
           summary.per_z * place.z * plane_per_z_;
  }

  Push push(double x, double z) const;

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

  /// Of a cell deep inside: the depth at its middle, and a unit vector in steps of 1 / 32767, the way deeper. Of any
  /// other: where its list begins.
  struct Summary {
    std::uint32_t list_or_depth = 0;
    std::int16_t per_x = 0, per_z = 0;
    bool deep() const { return per_x != 0 || per_z != 0; }
  };

  /// A cell, and where in it: in cells from its middle.
  struct Place {
    std::size_t cell;
    double x, z;
  };

  struct Nearest {
    double away_x = 0, away_z = 0; ///< from the nearest point of the outline
    double distance = 0;
    bool outside = false;
    std::uint16_t edge = 0;
  };

  bool outside_box(double x, double z) const { return x <= left_ || x >= right_ || z <= bottom_ || z >= top_; }
  Place place_of(double x, double z) const {
    const double column = (x - left_) * cells_per_x_, row = (z - bottom_) * cells_per_z_;
    const auto whole_column = static_cast<std::uint32_t>(column), whole_row = static_cast<std::uint32_t>(row);
    return {whole_row * side_ + whole_column, column - whole_column - 0.5, row - whole_row - 0.5};
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
  double cells_per_x_ = 0, cells_per_z_ = 0;
  double plane_per_x_ = 0, plane_per_z_ = 0; ///< micrometres for a step of a summary's unit vector and one cell
  std::size_t side_ = 1;
  std::vector<Edge> edges_;
  std::vector<Corners> corners_;     ///< of the same edges
  std::vector<std::uint16_t> lists_; ///< of edges, each after its length; the first is empty
  std::vector<std::uint32_t> first_; ///< into lists_, by cell
  std::vector<Summary> summaries_;   ///< by cell
};

} // namespace fanwright::sheets
