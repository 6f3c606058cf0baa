// The order in which a machine should cut, so that paper is still held where the knife is.
#pragma once

#include "drawing/drawing.h"

#include <vector>

namespace fanwright::drawing {

/// The paths with those to be cut (Step::cut and Step::perforate) last and in cutting order, the others before them in
/// the order given. What lies inside a closed cut comes before it; of what lies equally deep, small comes before large
/// (in classes of a factor two); in a class each cut is the one whose start is nearest to the end of the cut before.
/// A path of several subpaths is taken apart, for their order matters too. Same paths, same order.
std::vector<Path> in_cutting_order(std::vector<Path> paths);

} // namespace fanwright::drawing
