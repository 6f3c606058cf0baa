// Glue strips: parallelograms with two sides parallel to the spine, because a row's width is measured along z.
#pragma once

#include "leaf/leaf.h"

#include <array>

namespace fanwright::leaf {

/// Corners of a row's strip on the right half, counter-clockwise from the lower inner one, mm.
std::array<Point, 4> corners(const GlueRow& row);

/// Height of a row at its middle, mm.
double middle_z(const GlueRow& row);

/// Clear paper between two strips, mm, measured along z where they lie above each other, else between their nearer ends
/// along x or z, whichever is more; 0 or less when they overlap or cross.
double clear_between(const GlueRow& a, const GlueRow& b);

} // namespace fanwright::leaf
