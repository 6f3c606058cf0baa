// Where a figure's axis of symmetry stands, and how far its two sides differ.
#pragma once

#include "traced/plane.h"

#include <optional>

namespace fanwright::traced {

/// A straight line, and how the file's coordinates become leaf coordinates in which it is the spine.
struct Frame {
  Point origin;          ///< in the file: a place on the axis
  double tilt_rad = 0;   ///< the axis leans to the left by this
  double scale = 1;      ///< mm to a unit of the file
  bool mirrored = false; ///< the figure lies left of the axis
  double lift_mm = 0;    ///< added to heights, so that the foot comes to lie at 0

  Point to_leaf(Point in_file) const;
  Point to_file(Point in_leaf) const;
};

/// All rings of an area in leaf coordinates, still the right way round.
Areas placed(const Areas& areas, const Frame& frame);

struct Symmetry {
  Frame axis;      ///< scale 1
  double mean = 0; ///< distance between one side and the mirrored other, all along the edge, in units of the file
  double outline_mean = 0; ///< the same of the outline alone, without cut-outs
  double largest = 0;
  Point largest_at; ///< in the file
};

/// The upright axis, leaning by at most 20 degrees, in which the figure is nearest to its mirror image. Parts that have
/// no counterpart (a handle) do not pull it.
/// Based on: Besl, McKay, A Method for Registration of 3-D Shapes, 1992 (closest points in turn); Holland, Welsch,
/// Robust regression using iteratively reweighted least-squares, 1977 (Cauchy weights). Both from memory.
Symmetry symmetry_of(const Area& area);

struct StraightSide {
  Frame axis;       ///< along the side; mirrored when the figure lies left of it. Scale 1
  double share = 0; ///< of the figure's height that runs along it
};

/// The longest straight upright side that has the whole figure on one side of it: the spine of half a drawing.
StraightSide straight_side_of(const Area& area);

} // namespace fanwright::traced
