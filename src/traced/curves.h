// Many points become few smooth curves with true corners. Leaf coordinates, mm.
#pragma once

#include "leaf/outline.h"

#include <string>
#include <vector>

namespace fanwright::traced {

struct Smoothness {
  double tolerance_mm = 0.2;
  double grain_mm = 0; ///< a pixel of the picture the points come from; 0: points are exact
};

/// Where the line has a corner: indices into it, ascending. Ends of an open line are none. A corner is a turn that does
/// not shrink when it is looked at more closely; the turn of a curve does.
std::vector<std::size_t> corners_of(const std::vector<leaf::Point>& line, bool closed, const Smoothness& smoothness);

/// The outline from the spine's foot to its top (both at x = 0) as curves that keep within the tolerance of it. Where
/// it meets the spine nearly square, it meets it square: the mirrored half goes on without a kink.
leaf::Contour smooth_outline(const std::vector<leaf::Point>& from_foot_to_top, const Smoothness& smoothness);

/// A cut-out, clockwise as it was given. A small one is followed to a fiftieth of its size, as far as pixels go.
leaf::Contour smooth_ring(const leaf::Ring& ring, const Smoothness& wanted);

/// SVG path data of outline and cut-outs, to 0.01 mm. The outline is left open at the spine.
std::string path_text(const leaf::Contour& outline, const std::vector<leaf::Contour>& cut_outs);

} // namespace fanwright::traced
