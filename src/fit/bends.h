// How tightly cut lines curve inwards. Cut lines keep the paper on their left: outlines run counter-clockwise, cut-outs
// clockwise, and inward curves turn right. Corners are no curves: they are cut in two strokes.
#pragma once

#include "leaf/outline.h"

#include <limits>
#include <vector>

namespace fanwright::fit {

struct Bend {
  double radius_mm = std::numeric_limits<double>::infinity(); ///< the least along it
  leaf::Point at;                                             ///< where that is
};

/// The tightest inward curve; of infinite radius when there is none.
Bend tightest_bend(const leaf::Contour& contour);

/// Each stretch along which the line curves inwards with a radius below `radius_mm`, and turns by `least_turn_deg` at
/// least.
std::vector<Bend> bends_below(const leaf::Contour& contour, double radius_mm, double least_turn_deg);

} // namespace fanwright::fit
