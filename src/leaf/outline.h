// Silhouette curves. Leaf coordinates: x to the right from the spine, z up from the foot, mm.
#pragma once

#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::leaf {

struct Point {
  double x = 0; ///< mm from the spine
  double z = 0; ///< mm above the foot
};

struct Line {
  Point to;
};
struct Quadratic {
  Point control, to;
};
struct Cubic {
  Point control1, control2, to;
};
/// Elliptical arc in the meaning of SVG 2, section 9.5.1, but in leaf coordinates (z up).
struct Arc {
  double radius_x = 0, radius_z = 0; ///< mm
  double rotation_deg = 0;
  bool large = false, sweep = false;
  Point to;
};
using Segment = std::variant<Line, Quadratic, Cubic, Arc>;

/// One closed curve; the last segment ends at `start`.
struct Contour {
  Point start;
  std::vector<Segment> segments;
};

/// A closed ring of points; the first is not repeated at the end.
using Ring = std::vector<Point>;

/// Points on the contour, chord error at most `tolerance_mm`; segment ends are kept exactly.
Ring flatten(const Contour& contour, double tolerance_mm);

/// The same contour with every length multiplied by `factor`.
Contour scaled(const Contour& contour, double factor);

} // namespace fanwright::leaf
