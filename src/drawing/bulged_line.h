// Paths as lines and circular arcs, the only curves that every cutter's software reads from DXF.
#pragma once

#include "drawing/drawing.h"

#include <optional>
#include <vector>

namespace fanwright::drawing {

/// A corner and the arc that leaves it: bulge = tan(angle / 4), 0 for a straight line, positive where the arc turns
/// clockwise as seen on the page (y down).
struct BulgedVertex {
  Point at;
  double bulge = 0;
};

/// One subpath; when closed, the last vertex's arc leads back to the first.
struct BulgedLine {
  std::vector<BulgedVertex> vertices;
  bool closed = false;
};

/// How far a line may run from the curve it stands for: a fifth of what a cutting machine repeats.
inline constexpr double curve_tolerance_mm = 0.005;

/// The path's subpaths; circular arcs stay exact, cubics and elliptical arcs become pairs of arcs that meet smoothly,
/// within curve_tolerance_mm. Subpaths of a single point are left out.
std::vector<BulgedLine> bulged_lines(const std::vector<Segment>& path);

/// Length of the arc from a vertex to the next, mm.
double arc_length_mm(const BulgedVertex& from, const Point& to);

/// The place at `share` (0..1) of that arc's length.
Point along(const BulgedVertex& from, const Point& to, double share);

/// The smallest upright box round the lines, arcs and all.
struct Box {
  Point low, high;
};

/// Nothing without lines.
std::optional<Box> box_round(const std::vector<BulgedLine>& lines);

} // namespace fanwright::drawing
