#include "sheets/geos.h"

#include <algorithm>
#include <cmath>

namespace fanwright::sheets {

namespace {

Loop loop_of_ring(const Geos& geos, const GEOSGeometry* ring) {
  Loop loop;
  const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(geos.get(), ring);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r(geos.get(), points, &size);
  for (unsigned i = 0; i + 1 < size; ++i) {
    double x = 0, z = 0;
    GEOSCoordSeq_getXY_r(geos.get(), points, i, &x, &z);
    const Spot spot{std::llround(x), std::llround(z)};
    if (loop.empty() || !(loop.back() == spot))
      loop.push_back(spot);
  }
  return loop;
}

void add_ring(const Geos& geos, const GEOSGeometry* ring, bool outer, std::vector<Loop>& loops) {
  Loop loop = loop_of_ring(geos, ring);
  if (loop.size() < 3)
    return;
  if ((doubled_area(loop) > 0) != outer)
    std::reverse(loop.begin(), loop.end());
  loops.push_back(std::move(loop));
}

GEOSGeometry* ring_of(const Geos& geos, const Loop& loop) {
  GEOSCoordSequence* points = GEOSCoordSeq_create_r(geos.get(), static_cast<unsigned>(loop.size()) + 1, 2);
  for (unsigned i = 0; i <= loop.size(); ++i) {
    const Spot& spot = loop[i % loop.size()];
    GEOSCoordSeq_setXY_r(geos.get(), points, i, static_cast<double>(spot.x), static_cast<double>(spot.z));
  }
  return GEOSGeom_createLinearRing_r(geos.get(), points);
}

} // namespace

std::vector<Loop> loops_of(const Geos& geos, const GEOSGeometry* areas) {
  std::vector<Loop> loops;
  const int count = areas == nullptr ? 0 : GEOSGetNumGeometries_r(geos.get(), areas);
  for (int i = 0; i < count; ++i) {
    const GEOSGeometry* polygon = GEOSGetGeometryN_r(geos.get(), areas, i);
    if (GEOSGeomTypeId_r(geos.get(), polygon) != GEOS_POLYGON || GEOSisEmpty_r(geos.get(), polygon) != 0)
      continue;
    add_ring(geos, GEOSGetExteriorRing_r(geos.get(), polygon), true, loops);
    for (int k = 0; k < GEOSGetNumInteriorRings_r(geos.get(), polygon); ++k)
      add_ring(geos, GEOSGetInteriorRingN_r(geos.get(), polygon, k), false, loops);
  }
  return loops;
}

Geometry area_of(const Geos& geos, const std::vector<Loop>& loops) {
  std::vector<GEOSGeometry*> rings;
  for (const Loop& loop : loops)
    if (GEOSGeometry* ring = ring_of(geos, loop))
      rings.push_back(ring);
  const Geometry lines = geos.own(GEOSGeom_createCollection_r(geos.get(), GEOS_GEOMETRYCOLLECTION, rings.data(),
                                                              static_cast<unsigned>(rings.size())));
  return geos.own(lines ? GEOSBuildArea_r(geos.get(), lines.get()) : nullptr);
}

} // namespace fanwright::sheets
