// Measures of a solved form: its edge, spine and foot.
#pragma once

#include "opened/surface.h"

#include <functional>

namespace fanwright::opened {

/// Wedge-frame place of a flat point, mm; heights from anywhere.
using PlaceOf = std::function<Eigen::Vector3d(leaf::Point)>;

/// Heights and radii of the outer edge, height and diameter into `form`; returns the ornament's lowest height, mm.
double measure_edge(const Panel& panel, const PlaceOf& place_of, Form& form);

/// The spine's own height and the hub it leaves open; after measure_edge.
void measure_spine(const Panel& panel, const PlaceOf& place_of, Form& form);

inline double measure_edge(const Panel& panel, const Surface& surface, Form& form) {
  return measure_edge(
      panel, [&](leaf::Point flat) { return surface.at(flat); }, form);
}

/// How far the outermost point of the leaf's lowest stretch stands above the lowest point; after measure_edge.
void measure_foot(Form& form);

/// Edge, spine and foot anew from the form's place(), whose heights may be from anywhere; they are from the lowest
/// point afterwards.
void measure_by_place(const Panel& panel, Form& form);

} // namespace fanwright::opened
