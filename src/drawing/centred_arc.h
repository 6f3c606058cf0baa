// Elliptical arcs by their centre. For the files of this folder only.
#pragma once

#include "drawing/drawing.h"

namespace fanwright::drawing {

/// An arc as centre, radii (mm) and parameter angles (rad); positive angles run clockwise as seen, y being down.
struct CentredArc {
  Point centre;
  double radius_x, radius_y, rotation_rad, start_rad, sweep_rad;
};

/// Centre form of `arc`, which begins at `from`, ends elsewhere and has radii other than 0.
CentredArc centred(const Point& from, const Arc& arc);

/// The place that (unit_x, unit_y) of the unit circle has on the arc's ellipse.
Point on(const CentredArc& arc, double unit_x, double unit_y);

} // namespace fanwright::drawing
