// Exact measures and moves of contours.
#pragma once

#include "leaf/outline.h"

namespace fanwright::leaf {

inline bool operator==(Point a, Point b) { return a.x == b.x && a.z == b.z; }

/// Smallest upright box, mm.
struct Box {
  double left = 0, right = 0, bottom = 0, top = 0;
  double width() const { return right - left; }
  double height() const { return top - bottom; }
};

Point end_of(const Segment& segment);

/// Number of points flatten() would return at most; cheap, for refusing before memory is spent.
double flattened_size(const Contour& contour, double tolerance_mm);

/// Exact bounds of the curves themselves, not of their control points.
Box bounds(const Contour& contour);
Box bounds(const Ring& ring);

/// Exact enclosed area, mm2; positive when counter-clockwise.
double signed_area(const Contour& contour);
double signed_area(const Ring& ring);

/// The same curve run through the other way, from the same start.
Contour reversed(const Contour& contour);

/// Mirror image in the spine, x -> -x. Turns counter-clockwise into clockwise.
Contour mirrored(const Contour& contour);

} // namespace fanwright::leaf
