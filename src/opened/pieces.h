// The leaf cut by the grid: each cell's paper as trapezoids, joined into connected pieces.
// A cell crossed by a slit holds two pieces that share no control points, so that an overhanging tier is free of
// the body beside it although both lie on the same grid.
#pragma once

#include "opened/grid.h"

#include <array>
#include <vector>

namespace fanwright::opened {

/// Paper between two heights of a cell, bounded left and right by straight lines (grid coordinates).
struct Trapezoid {
  double low = 0, high = 0;
  double left_low = 0, right_low = 0, left_high = 0, right_high = 0;
  bool operator==(const Trapezoid&) const = default;
  double area() const { return 0.5 * (high - low) * (right_low - left_low + right_high - left_high); }
};

struct Piece {
  int i = 0, j = 0; ///< its cell
  std::vector<Trapezoid> paper;
  double area = 0;             ///< in grid coordinates
  bool whole = false;          ///< fills its cell
  std::array<int, 9> points{}; ///< control points, a + 3 b
  /// The place on its paper that is nearest to (x, zeta).
  std::array<double, 2> nearest(double x, double zeta) const;
};

struct Pieces {
  std::vector<Piece> pieces;
  int points = 0;                        ///< number of control points
  std::vector<std::array<int, 2>> place; ///< grid function (across, up) of each control point
  std::vector<int> first_of_cell;        ///< pieces of cell c = i + cells_across j: [first, next first)
  /// The piece whose paper is nearest to a place: of the cell and its neighbours, or of all when those are empty.
  int nearest(const Grid& grid, double x, double zeta) const;
};

Pieces cut(const Panel& panel, const Grid& grid);

} // namespace fanwright::opened
