// The no-fit region of one pair of pieces as a field: how deep a move lies in it, answered in constant time.
//
// A uniform grid holds, for each cell, the few edges that can be nearest to a point of the cell; the nearest one tells
// depth and side (side at a corner by the sum of its edges' normals: Baerentzen and Aanaes 2005).
#pragma once

#include "sheets/shape.h"

#include <algorithm>
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
    if (x <= left_ || x >= right_ || z <= bottom_ || z >= top_)
      return 0;
    const std::size_t cell = cell_of(x, z);
    const std::uint32_t begin = first_[cell], end = first_[cell + 1];
    return begin == end ? 0 : depth_near(x, z, begin, end);
  }

  Push push(double x, double z) const;

  double left() const { return left_; }
  double bottom() const { return bottom_; }
  double right() const { return right_; }
  double top() const { return top_; }

private:
  struct Edge {
    double x, z, along_x, along_z, per_length2;
  };
  /// Outward normals: of the edge, and of the corners where it begins and ends.
  struct Normals {
    double x, z, from_x, from_z, to_x, to_z;
  };

  struct Cell {
    std::size_t column, row, span; ///< the square of cells under question
  };

  struct Nearest {
    double away_x = 0, away_z = 0; ///< from the nearest point of the outline
    double distance = 0;
    bool outside = false;
    std::uint16_t edge = 0;
  };

  std::size_t cell_of(double x, double z) const {
    return static_cast<std::size_t>((z - bottom_) * cells_per_z_) * side_ +
           static_cast<std::size_t>((x - left_) * cells_per_x_);
  }
  Nearest nearest(double x, double z, std::uint32_t begin, std::uint32_t end) const;
  double depth_near(double x, double z, std::uint32_t begin, std::uint32_t end) const {
    const Nearest near = nearest(x, z, begin, end);
    return std::max(0.0, reach_ + (near.outside ? -near.distance : near.distance));
  }
  double distance(const Edge& edge, double x, double z) const;
  void add_edges(const Loop& loop);
  void fill(Cell cell, const std::vector<std::uint16_t>& candidates, std::vector<std::vector<std::uint16_t>>& lists);

  double reach_ = 0;
  double left_ = 0, bottom_ = 0, right_ = 0, top_ = 0;
  double cells_per_x_ = 0, cells_per_z_ = 0;
  std::size_t side_ = 1;
  std::vector<Edge> edges_;
  std::vector<Normals> normals_;     ///< of the same edges
  std::vector<std::uint16_t> near_;  ///< edges, cell by cell
  std::vector<std::uint32_t> first_; ///< into near_, by cell
};

} // namespace fanwright::sheets
