// The lines of one half-panel that a drawing shows: its paper's edges, and where the paper turns from the viewer.
#pragma once

#include "picture/half_panel.h"
#include "picture/seen_lines.h"

#include <vector>

namespace fanwright::picture {

/// The edges of the paper, one closed line each (its first point stands again at the end).
std::vector<Line> edge_lines(const HalfPanel& half);

/// Where the smooth surface is seen exactly edge-on from direction `towards` (unit, in the half-panel's own frame).
/// Based on A. Hertzmann and D. Zorin, Illustrating smooth surfaces (2000), section 3: zeros of the interpolated
/// product of normal and view.
std::vector<Line> turning_lines(const HalfPanel& half, const opened::Point3& towards);

} // namespace fanwright::picture
