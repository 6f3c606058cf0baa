// What a maker changes in one drag, for the benchmarks.
#pragma once

#include "opened/opened.h"

namespace fanwright::bench {

/// The outline's outermost point drawn outward by 2 mm, and what lies within 12 mm of it smoothly less.
opened::Panel with_point_moved(opened::Panel panel);

/// The middle row raised by 1 mm.
opened::Panel with_row_moved(opened::Panel panel);

/// Largest distance between the edges of two forms of one panel, heights from the lowest point, as a share of the size.
double edge_distance(const opened::Form& a, const opened::Form& b);

/// All energy of a half-panel, N mm.
inline double energy(const opened::Form& form) { return form.bending_energy_nmm + form.membrane_energy_nmm; }

} // namespace fanwright::bench
