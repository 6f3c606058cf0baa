// The no-fit region of two pieces: every move of the second at which its paper would overlap the first's.
//
// Based on: Guibas, Ramshaw, Stolfi, "A kinetic framework for computational geometry", FOCS 1983 (convolution of
// tracings: a move overlaps where the convolution winds round it).
#pragma once

#include "sheets/shape.h"

#include <vector>

namespace fanwright::sheets {

/// Outlines of the region, counter-clockwise, and of the pockets in it, clockwise; micrometres, right to about 1. The
/// pockets are kept only where they are wide enough to be of use. Empty when the geometry library fails.
std::vector<Loop> no_fit_region(const Shape& fixed, const Shape& moving);

/// The region seen the other way round: `first` relative to `second`.
std::vector<Loop> opposite(std::vector<Loop> region);

/// The region grown by `gap_um` on all sides, its round corners drawn outside the true arcs by at most 0.5 %.
std::vector<Loop> grown(const std::vector<Loop>& region, double gap_um);

} // namespace fanwright::sheets
