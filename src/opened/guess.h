// A first guess of the opened form, at full opening, good enough for Newton's method.
#pragma once

#include "opened/grid.h"
#include "opened/pieces.h"

#include <Eigen/Core>

#include <vector>

namespace fanwright::opened {

/// Places of the control points (3 x points): each height swings smoothly from wall to wall between rows, and each
/// gap loses the height that the swing costs at its radius.
Eigen::Matrix3Xd first_guess(const Panel& panel, const Grid& grid, const Pieces& pieces, double wedge_rad);

/// Lock ratios q = beta x / s of all neighbouring rows on different walls, from foot to top: the larger of those at the
/// inner and the outer end that both rows reach, s the clear distance there.
std::vector<RowLock> row_locks(const Panel& panel, const Grid& grid, double wedge_rad);

} // namespace fanwright::opened
