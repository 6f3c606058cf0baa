// GEOS geometries that free themselves.
#pragma once

#include "sheets/shape.h"

#include <geos_c.h>

#include <memory>
#include <vector>

namespace fanwright::sheets {

struct DropGeometry {
  GEOSContextHandle_t context = nullptr;
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, DropGeometry>;

/// A context of the library, silent; outlives every geometry it owns.
class Geos {
public:
  Geos() : context_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(context_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  GEOSContextHandle_t get() const { return context_; }
  Geometry own(GEOSGeometry* geometry) const { return Geometry(geometry, DropGeometry{context_}); }

private:
  GEOSContextHandle_t context_;
};

/// All rings of a polygon or of several, to whole micrometres: outer ones counter-clockwise, inner ones clockwise.
std::vector<Loop> loops_of(const Geos& geos, const GEOSGeometry* areas);

/// The polygons that such loops bound; each clockwise loop is a hole of the first counter-clockwise one that holds it.
Geometry area_of(const Geos& geos, const std::vector<Loop>& loops);

} // namespace fanwright::sheets
