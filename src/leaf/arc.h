// Elliptical arcs by their centre. Based on SVG 2, appendix B.2 (elliptical arc implementation notes).
#pragma once

#include "leaf/outline.h"

#include <optional>

namespace fanwright::leaf {

/// An arc from its end points made explicit; angles in radians in the ellipse's own frame, positive from x to z.
struct CentredArc {
  Point centre;
  double radius_x = 0, radius_z = 0; ///< mm, enlarged when the given radii could not reach
  double rotation_rad = 0;
  double start_rad = 0, turn_rad = 0; ///< turn is positive when sweep is set

  /// Point at `angle_rad` of the ellipse's own frame.
  Point at(double angle_rad) const;
};

/// Empty when the arc is a straight line (a radius near 0) or nothing at all (ends coincide).
std::optional<CentredArc> centred(Point from, const Arc& arc);

} // namespace fanwright::leaf
