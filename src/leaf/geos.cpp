#include "leaf/geos.h"

#include "leaf/contour.h"

#include <algorithm>

namespace fanwright::leaf {
namespace {

GEOSGeometry* linear_ring(GEOSContextHandle_t context, const Ring& ring) {
  const auto count = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(context, count + 1, 2);
  for (unsigned i = 0; i <= count; ++i) {
    const Point p = ring[i % count];
    GEOSCoordSeq_setXY_r(context, sequence, i, p.x, p.z);
  }
  return GEOSGeom_createLinearRing_r(context, sequence);
}

} // namespace

Geometry polygon(const Geos& geos, const Ring& outline, const std::vector<Ring>& holes) {
  std::vector<GEOSGeometry*> inner;
  inner.reserve(holes.size());
  for (const Ring& hole : holes)
    inner.push_back(linear_ring(geos.get(), hole));
  return geos.own(GEOSGeom_createPolygon_r(geos.get(), linear_ring(geos.get(), outline), inner.data(),
                                           static_cast<unsigned>(inner.size())));
}

Ring ring_of(const Geos& geos, const GEOSGeometry* line, bool counter_clockwise) {
  const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(geos.get(), line);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r(geos.get(), points, &size);
  Ring ring;
  for (unsigned i = 0; i + 1 < size; ++i) {
    Point p;
    GEOSCoordSeq_getXY_r(geos.get(), points, i, &p.x, &p.z);
    ring.push_back(p);
  }
  if ((signed_area(ring) > 0) != counter_clockwise)
    std::reverse(ring.begin(), ring.end());
  return ring;
}

} // namespace fanwright::leaf
