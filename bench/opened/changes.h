// What a maker changes in one drag, and how far forms lie apart, for the benchmarks.
#pragma once

#include "opened/opened.h"

namespace fanwright::bench {

/// Forms without a mesh.
opened::Options measured_only(opened::Detail detail = opened::Detail::full);

/// The outline's outermost point drawn outward by 2 mm, and what lies within 12 mm of it smoothly less.
opened::Panel with_point_moved(opened::Panel panel);

/// The middle row raised by 1 mm.
opened::Panel with_row_moved(opened::Panel panel);

/// Largest distance between the edges of two forms of one panel, heights from the lowest point, as a share of the size.
double edge_distance(const opened::Form& a, const opened::Form& b);

} // namespace fanwright::bench
