// Lines that a machine cuts as dashes, to be folded or torn along.
#pragma once

#include "drawing/drawing.h"

#include <vector>

namespace fanwright::drawing {

/// `line` as separate cuts of at least `dash_mm` with `gap_mm` of paper between, each a path in Step::perforate. Half a
/// gap stays at either end of the line; the dashes are all stretched alike so that they fill it. A line shorter than a
/// dash and a gap gets one shorter dash, or none when it is no longer than a gap. Curves become arcs (see
/// bulged_line.h). At most 10,000 dashes to a line. `dash_mm` must be positive and `gap_mm` not negative, else there
/// are none.
std::vector<Path> cut_dashes(const Path& line, double dash_mm, double gap_mm);

} // namespace fanwright::drawing
