// Opened panels against an independent finite-element solver, laws of the trade and their own symmetries.
#pragma once

#include "opened/check.h"

namespace fanwright::opened {

Checks reference_checks();  ///< outer edges of the independent solver
Checks rim_checks();        ///< rim shrink with the square of the wedge
Checks invariance_checks(); ///< raising, turning over, scaling a panel; swapping its walls
Checks moment_checks();     ///< holding moment as the slope of the energy

/// Distance of the edge of a case from the independent solver's, as a share of the height, and the unknowns it took.
struct Refinement {
  int cells_per_gap = 0, unknowns = 0;
  double distance_share = 0;
};
std::vector<Refinement> refinement_path(const char* name);

} // namespace fanwright::opened
