// Points spread evenly along lines.
#pragma once

#include "leaf/outline.h"

#include <vector>

namespace fanwright::traced {

double length_of(const std::vector<leaf::Point>& line, bool closed);

/// Points at equal distances of at most `spacing` along the line: both ends of an open line included, of a closed one
/// the first alone. At least `least` of them.
std::vector<leaf::Point> spread_along(const std::vector<leaf::Point>& line, bool closed, double spacing, int least = 2);

} // namespace fanwright::traced
