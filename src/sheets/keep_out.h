// The no-fit region of one pair of pieces as a field: how deep a move lies in it, answered in constant time.
//
// A uniform grid holds, for each cell, the few edges that can be nearest to a point of the cell; the nearest one tells
// depth and side (side at a corner by the sum of its edges' normals: Baerentzen and Aanaes 2005).
#pragma once

#include "sheets/shape.h"

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

namespace fanwright::sheets {

class KeepOut {
public:
  /// `region` as no_fit_region gives it. Moves are told apart up to `reach_um` outside it; farther ones are just clear.
  KeepOut(const std::vector<Loop>& region, double reach_um);

  /// How deep the move lies in the region grown by the reach, micrometres: the length of the shortest further move that
  /// leaves it. 0 when clear.
  double depth(double x, double z) const {
    if (x <= left_ || x >= right_ || z <= bottom_ || z >= top_)
      return 0;
    const auto column = static_cast<std::size_t>((x - left_) * cells_per_x_);
    const auto row = static_cast<std::size_t>((z - bottom_) * cells_per_z_);
    const std::size_t cell = row * side_ + column;
    const std::uint32_t begin = first_[cell], end = first_[cell + 1];
    return begin == end ? 0 : depth_near(x, z, begin, end);
  }

  double left() const { return left_; }
  double bottom() const { return bottom_; }
  double right() const { return right_; }
  double top() const { return top_; }

private:
  struct Edge {
    double x, z, along_x, along_z, per_length2;
    double normal_x, normal_z; ///< outward, of the edge
    double from_x, from_z;     ///< outward, of the corner where it begins
    double to_x, to_z;         ///< and ends
  };

  struct Cell {
    std::size_t column, row, span; ///< the square of cells under question
  };

  double depth_near(double x, double z, std::uint32_t begin, std::uint32_t end) const;
  double distance(const Edge& edge, double x, double z) const;
  void add_edges(const Loop& loop);
  void fill(Cell cell, const std::vector<std::uint32_t>& candidates, std::vector<std::vector<std::uint32_t>>& lists);

  double reach_ = 0;
  double left_ = 0, bottom_ = 0, right_ = 0, top_ = 0;
  double cells_per_x_ = 0, cells_per_z_ = 0;
  std::size_t side_ = 1;
  std::vector<Edge> edges_;
  std::vector<Edge> near_;           ///< copies, cell by cell: one stretch of memory for one question
  std::vector<std::uint32_t> first_; ///< into near_, by cell
};

} // namespace fanwright::sheets
