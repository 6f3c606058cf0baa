// Narrow strips against the exact inextensible elastica and published shell values.
#pragma once

#include "opened/check.h"

namespace fanwright::opened {

Checks end_shear_checks();    ///< cantilever under a dead load at its tip
Checks end_moment_checks();   ///< cantilever rolled up by a moment at its tip
Checks own_weight_checks();   ///< cantilever under its own weight
Checks offset_clamp_checks(); ///< strip between two clamps: paper between two glue rows

/// Errors of the strip's tip or height on `cells` cells, for the order of refinement.
double end_shear_error(int cells);
double offset_clamp_error(int cells);

/// Share of the full load, drop and shortening as shares of the length, along a loading path.
struct PathPoint {
  double load = 0, drop = 0, shortening = 0;
};
std::vector<PathPoint> end_shear_path();

} // namespace fanwright::opened
