// How a finished piece carries itself: its centre of mass, and the places it stands on.
#pragma once

#include "opened/opened.h"

#include <vector>

namespace fanwright::fit {

/// A place seen from above, ornament axes, mm.
struct Spot {
  double x = 0, y = 0;
};

/// Centre of mass of all half-panels by area, ornament axes, mm; the form's mesh must have triangles.
opened::Point3 mass_centre(const opened::Form& form, int leaves);

/// What the piece stands on: the convex hull, counter-clockwise, of where its outer edges touch the table.
std::vector<Spot> footprint(const opened::Form& form, int leaves);

/// Least distance from `centre` to the rim of the footprint, mm; negative outside, 0 when it has no area.
double reach_of_feet(const std::vector<Spot>& footprint, Spot centre);

} // namespace fanwright::fit
