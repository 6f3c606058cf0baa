// GEOS geometries that free themselves.
#pragma once

#include "leaf/outline.h"

#include <geos_c.h>

#include <memory>
#include <vector>

namespace fanwright::leaf {

struct DropGeometry {
  GEOSContextHandle_t context = nullptr;
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, DropGeometry>;

/// A context of the library, silent; outlives every geometry it owns. Faults show in the results.
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

/// The polygon inside `outline` and outside `holes`, which may still be invalid.
Geometry polygon(const Geos& geos, const Ring& outline, const std::vector<Ring>& holes = {});

/// The corners of a closed line, the first not repeated, turned the way that is asked for.
Ring ring_of(const Geos& geos, const GEOSGeometry* line, bool counter_clockwise);

} // namespace fanwright::leaf
