// Few smooth curves through many points, fit for a knife.
// Based on: Schneider, An Algorithm for Automatically Fitting Digitized Curves, Graphics Gems, 1990 (from memory).
#pragma once

#include "leaf/outline.h"

#include <optional>
#include <vector>

namespace fanwright::fit {

/// Unit directions, both pointing into the curve, that it must have at its ends; empty where the points decide.
struct EndDirections {
  std::optional<leaf::Point> first, last;
};

/// Cubics from points.front() to points.back() that pass every point within `tolerance_mm`, with a common tangent
/// where they join. At least two points, neighbours apart.
std::vector<leaf::Segment> smooth(const std::vector<leaf::Point>& points, double tolerance_mm,
                                  const EndDirections& ends = {});

} // namespace fanwright::fit
