#include "oracle.h"

#include <geos_c.h>

#include <cassert>
#include <stdexcept>

namespace fanwright::sheets {

struct Polygon::Geometry {
  GEOSContextHandle_t context = nullptr;
  GEOSGeometry* area = nullptr;
  const GEOSPreparedGeometry* prepared = nullptr;

  ~Geometry() {
    GEOSPreparedGeom_destroy_r(context, prepared);
    GEOSGeom_destroy_r(context, area);
    GEOS_finish_r(context);
  }
};

Polygon::Polygon(const leaf::Ring& ring) : geometry_(std::make_unique<Geometry>()) {
  assert(ring.size() >= 3);
  GEOSContextHandle_t context = geometry_->context = GEOS_init_r();
  const unsigned size = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* points = GEOSCoordSeq_create_r(context, size + 1, 2);
  for (unsigned i = 0; i <= size; ++i)
    GEOSCoordSeq_setXY_r(context, points, i, ring[i % size].x, ring[i % size].z);
  geometry_->area = GEOSGeom_createPolygon_r(context, GEOSGeom_createLinearRing_r(context, points), nullptr, 0);
  geometry_->prepared = GEOSPrepare_r(context, geometry_->area);
}

Polygon::~Polygon() = default;
Polygon::Polygon(Polygon&&) noexcept = default;
Polygon& Polygon::operator=(Polygon&&) noexcept = default;

double Polygon::distance(const Polygon& other) const {
  double distance = 0;
  // A failed question counts as touching, so that the test fails.
  if (GEOSPreparedDistance_r(geometry_->context, geometry_->prepared, other.geometry_->area, &distance) != 1)
    return 0;
  return distance;
}

bool Polygon::shares_area_with(const Polygon& other) const {
  // A failed question counts as neither answer would: the test that asks must fail.
  const char answer = GEOSRelatePattern_r(geometry_->context, geometry_->area, other.geometry_->area, "T********");
  if (answer > 1)
    throw std::runtime_error("the geometry library cannot relate the polygons");
  return answer == 1;
}

} // namespace fanwright::sheets
