// Measures of a solved form: its edge, spine and foot.
#pragma once

#include "opened/surface.h"

namespace fanwright::opened {

/// Heights and radii of the outer edge, height and diameter into `form`; returns the ornament's lowest height, mm.
double measure_edge(const Panel& panel, const Surface& surface, Form& form);

/// The spine's own height and the hub it leaves open; after measure_edge.
void measure_spine(const Panel& panel, const Surface& surface, Form& form);

/// How far the outermost point of the leaf's lowest stretch stands above the lowest point; after measure_edge.
void measure_foot(Form& form);

} // namespace fanwright::opened
