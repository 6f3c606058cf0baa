// Areas of the plane and what is done with them; GEOS does the work. Any unit of length; x to the right, z up.
#pragma once

#include "leaf/outline.h"

#include <vector>

namespace fanwright::traced {

using leaf::Point;
using leaf::Ring;

/// One piece: its outline counter-clockwise, its holes clockwise; valid.
struct Area {
  Ring outline;
  std::vector<Ring> holes;
};

/// Pieces that do not overlap.
using Areas = std::vector<Area>;

enum class FillRule { nonzero, evenodd };

/// What rings that may cross themselves and one another enclose by the rule (SVG 2, section 13.4.2). The work grows
/// with the crossings: ask crossings_of() first when the rings come from a file.
Areas filled(const std::vector<Ring>& all, FillRule rule);

/// Whether the place, on no edge, lies in one of the areas.
bool covers(const Areas& areas, Point p);

Areas united(const Areas& a, const Areas& b);
Areas without(const Areas& a, const Areas& b);
Areas shared(const Areas& a, const Areas& b);

/// All of them united; far quicker than one by one.
Areas united(const std::vector<Areas>& all);

/// Grown by `reach` all round, or shrunk where it is negative. `round` corners are arcs, others stay corners.
enum class Corners { round, sharp };
Areas grown(const Areas& areas, double reach, Corners corners);

/// The strip that lies within half `width` of the line, its ends cut straight across.
Areas along_line(const std::vector<Point>& line, double width);

std::size_t points_in(const Areas& areas);

double area_of(const Area& area);
double area_of(const Areas& areas);

/// Diameter of the widest circle in the piece, holes regarded; to a hundredth of its size.
double widest_circle(const Area& area);

} // namespace fanwright::traced
