#include "leaf/region.h"

#include "leaf/geos.h"

namespace fanwright::leaf {
namespace {

struct PreparedDeleter {
  GEOSContextHandle_t context;
  void operator()(const GEOSPreparedGeometry* prepared) const { GEOSPreparedGeom_destroy_r(context, prepared); }
};
using Prepared = std::unique_ptr<const GEOSPreparedGeometry, PreparedDeleter>;

Geometry point_geometry(const Geos& geos, Point point) {
  return geos.own(GEOSGeom_createPointFromXY_r(geos.get(), point.x, point.z));
}

double area_of(const Geos& geos, const Geometry& shape) {
  double area = 0;
  if (shape)
    GEOSArea_r(geos.get(), shape.get(), &area);
  return area;
}

} // namespace

double overlap(const Ring& a, const Ring& b) {
  const Geos geos;
  const Geometry first = geos.own(GEOSMakeValid_r(geos.get(), polygon(geos, a).get()));
  const Geometry second = geos.own(GEOSMakeValid_r(geos.get(), polygon(geos, b).get()));
  if (!first || !second)
    return 0;
  const double both = area_of(geos, geos.own(GEOSIntersection_r(geos.get(), first.get(), second.get())));
  const double either = area_of(geos, first) + area_of(geos, second) - both;
  return either > 0 ? both / either : 0;
}

std::optional<Point> self_contact(const Ring& ring) {
  if (ring.size() < 3)
    return ring.empty() ? Point{} : ring.front();
  const Geos geos;
  const Geometry shape = polygon(geos, ring);
  GEOSGeometry* raw = nullptr;
  char* reason = nullptr;
  const char valid = GEOSisValidDetail_r(geos.get(), shape.get(), 0, &reason, &raw);
  const Geometry place = geos.own(raw);
  GEOSFree_r(geos.get(), reason);
  if (valid == 1)
    return std::nullopt;
  Point found = ring.front();
  if (place) {
    GEOSGeomGetX_r(geos.get(), place.get(), &found.x);
    GEOSGeomGetY_r(geos.get(), place.get(), &found.z);
  }
  return found;
}

double widest_circle_mm(const Ring& ring) {
  const Geos geos;
  const Geometry shape = polygon(geos, ring);
  const Geometry radius = geos.own(GEOSMaximumInscribedCircle_r(geos.get(), shape.get(), 0.005));
  double length = 0;
  GEOSGeomGetLength_r(geos.get(), radius.get(), &length);
  return 2 * length;
}

struct Region::Geos {
  leaf::Geos library;
  Geometry area = library.own(nullptr);
  Geometry boundary = library.own(nullptr);
  Prepared prepared_area{nullptr, PreparedDeleter{library.get()}};
  Prepared prepared_boundary{nullptr, PreparedDeleter{library.get()}};
};

Region::Region(const Ring& outline, const std::vector<Ring>& holes) : geos_(std::make_unique<Geos>()) {
  const auto context = geos_->library.get();
  geos_->area = polygon(geos_->library, outline, holes);
  geos_->boundary.reset(GEOSBoundary_r(context, geos_->area.get()));
  geos_->prepared_area.reset(GEOSPrepare_r(context, geos_->area.get()));
  geos_->prepared_boundary.reset(GEOSPrepare_r(context, geos_->boundary.get()));
}

Region::~Region() = default;

bool Region::contains(Point point) const {
  const auto context = geos_->library.get();
  const Geometry probe = point_geometry(geos_->library, point);
  return GEOSPreparedContains_r(context, geos_->prepared_area.get(), probe.get()) == 1;
}

double Region::distance_to_boundary(Point point) const {
  const auto context = geos_->library.get();
  const Geometry probe = point_geometry(geos_->library, point);
  double distance = 0;
  GEOSPreparedDistance_r(context, geos_->prepared_boundary.get(), probe.get(), &distance);
  return distance;
}

double Region::distance_to_boundary(const Ring& ring) const {
  const auto context = geos_->library.get();
  const Geometry probe = polygon(geos_->library, ring);
  // The prepared distance is between lines alone; a hole wholly within the ring would be missed.
  if (GEOSPreparedIntersects_r(context, geos_->prepared_boundary.get(), probe.get()) != 0)
    return 0;
  double distance = 0;
  GEOSPreparedDistance_r(context, geos_->prepared_boundary.get(), probe.get(), &distance);
  return distance;
}

bool Region::keeps_together(double inset_mm) const {
  constexpr double crumb_mm2 = 3;
  constexpr int quarter_segments = 8; // arcs within 0.5 % of the inset
  const auto context = geos_->library.get();
  const Geometry left = geos_->library.own(GEOSBuffer_r(context, geos_->area.get(), -inset_mm, quarter_segments));
  int pieces = 0;
  int holes = 0;
  for (int k = 0; k < GEOSGetNumGeometries_r(context, left.get()); ++k) {
    const GEOSGeometry* piece = GEOSGetGeometryN_r(context, left.get(), k);
    double area = 0;
    GEOSArea_r(context, piece, &area);
    if (area < crumb_mm2)
      continue;
    ++pieces;
    holes += GEOSGetNumInteriorRings_r(context, piece);
  }
  return pieces == 1 && holes == GEOSGetNumInteriorRings_r(context, geos_->area.get());
}

} // namespace fanwright::leaf
