// A first guess of the opened form, at full opening, good enough for Newton's method.
#pragma once

#include "opened/grid.h"
#include "opened/pieces.h"

#include <Eigen/Core>

namespace fanwright::opened {

/// Places of the control points (3 x points): each height swings smoothly from wall to wall between rows, and each
/// gap loses the height that the swing costs at its radius.
Eigen::Matrix3Xd first_guess(const Panel& panel, const Grid& grid, const Pieces& pieces, double wedge_rad);

/// Largest q = beta x1 / s over neighbouring rows on different walls: x1 the outer end that both reach, s the clear
/// distance there. Zero when no two such rows exist. `lower` and `upper` are the pair's indices into panel.rows.
struct Lock {
  double ratio = 0;
  int lower = -1, upper = -1;
};
Lock lock(const Panel& panel, const Grid& grid, double wedge_rad);

} // namespace fanwright::opened
