// The place on rings that is nearest to a point, found over a grid.
#pragma once

#include "traced/plane.h"

#include <vector>

namespace fanwright::traced {

struct Foot {
  Point at;
  Point along; ///< unit direction of the edge there
  double distance = 1e300;
};

/// Edges of rings, sorted into cells about as large as they are long.
class NearestEdge {
public:
  explicit NearestEdge(const std::vector<Ring>& rings);

  /// The nearest place; where it lies further away than some cells, all edges are looked at.
  Foot to(Point p) const;

private:
  struct Edge {
    Point a, b;
  };
  struct Best;

  std::size_t cell(int column, int row) const;
  int column_of(double x) const;
  int row_of(double z) const;
  void look(const Edge& edge, Point p, Best& best) const;
  void look_in_square(int column, int row, int reach, Point p, Best& best) const;

  std::vector<Edge> edges_;
  double left_ = 0, bottom_ = 0, side_ = 1; ///< of the grid's lowest cell, and of each cell
  int columns_ = 1, rows_ = 1;
  std::vector<std::vector<std::size_t>> cells_; ///< edges whose box reaches into the cell
};

} // namespace fanwright::traced
