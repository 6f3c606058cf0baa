// Loops of whole micrometres to GEOS geometries and back.
#pragma once

#include "leaf/geos.h"
#include "sheets/shape.h"

#include <vector>

namespace fanwright::sheets {

using leaf::Geometry;
using leaf::Geos;

/// All rings of a polygon or of several, to whole micrometres: outer ones counter-clockwise, inner ones clockwise.
std::vector<Loop> loops_of(const Geos& geos, const GEOSGeometry* areas);

/// The polygons that such loops bound; each clockwise loop is a hole of the first counter-clockwise one that holds it.
Geometry area_of(const Geos& geos, const std::vector<Loop>& loops);

} // namespace fanwright::sheets
