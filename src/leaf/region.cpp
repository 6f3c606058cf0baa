#include "leaf/region.h"

#include <geos_c.h>

namespace fanwright::leaf {
namespace {

/// A GEOS context that reports nothing; faults show in the results.
class Context {
public:
  Context() : handle_(GEOS_init_r()) {}
  ~Context() { GEOS_finish_r(handle_); }
  Context(const Context&) = delete;
  Context& operator=(const Context&) = delete;
  GEOSContextHandle_t get() const { return handle_; }

private:
  GEOSContextHandle_t handle_;
};

struct GeometryDeleter {
  GEOSContextHandle_t context;
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, GeometryDeleter>;

struct PreparedDeleter {
  GEOSContextHandle_t context;
  void operator()(const GEOSPreparedGeometry* prepared) const { GEOSPreparedGeom_destroy_r(context, prepared); }
};
using Prepared = std::unique_ptr<const GEOSPreparedGeometry, PreparedDeleter>;

GEOSCoordSequence* closed_sequence(GEOSContextHandle_t context, const Ring& ring) {
  const auto count = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(context, count + 1, 2);
  for (unsigned i = 0; i <= count; ++i) {
    const Point p = ring[i % count];
    GEOSCoordSeq_setXY_r(context, sequence, i, p.x, p.z);
  }
  return sequence;
}

GEOSGeometry* linear_ring(GEOSContextHandle_t context, const Ring& ring) {
  return GEOSGeom_createLinearRing_r(context, closed_sequence(context, ring));
}

Geometry polygon(GEOSContextHandle_t context, const Ring& outline, const std::vector<Ring>& holes = {}) {
  std::vector<GEOSGeometry*> inner;
  inner.reserve(holes.size());
  for (const Ring& hole : holes)
    inner.push_back(linear_ring(context, hole));
  return {GEOSGeom_createPolygon_r(context, linear_ring(context, outline), inner.data(),
                                   static_cast<unsigned>(inner.size())),
          GeometryDeleter{context}};
}

Geometry point_geometry(GEOSContextHandle_t context, Point point) {
  return {GEOSGeom_createPointFromXY_r(context, point.x, point.z), GeometryDeleter{context}};
}

} // namespace

std::optional<Point> self_contact(const Ring& ring) {
  if (ring.size() < 3)
    return ring.empty() ? Point{} : ring.front();
  const Context context;
  const Geometry shape = polygon(context.get(), ring);
  GEOSGeometry* raw = nullptr;
  char* reason = nullptr;
  const char valid = GEOSisValidDetail_r(context.get(), shape.get(), 0, &reason, &raw);
  const Geometry place(raw, GeometryDeleter{context.get()});
  GEOSFree_r(context.get(), reason);
  if (valid == 1)
    return std::nullopt;
  Point found = ring.front();
  if (place) {
    GEOSGeomGetX_r(context.get(), place.get(), &found.x);
    GEOSGeomGetY_r(context.get(), place.get(), &found.z);
  }
  return found;
}

double widest_circle_mm(const Ring& ring) {
  const Context context;
  const Geometry shape = polygon(context.get(), ring);
  const Geometry radius(GEOSMaximumInscribedCircle_r(context.get(), shape.get(), 0.005),
                        GeometryDeleter{context.get()});
  double length = 0;
  GEOSGeomGetLength_r(context.get(), radius.get(), &length);
  return 2 * length;
}

struct Region::Geos {
  Context context;
  Geometry area{nullptr, GeometryDeleter{context.get()}};
  Geometry boundary{nullptr, GeometryDeleter{context.get()}};
  Prepared prepared_area{nullptr, PreparedDeleter{context.get()}};
  Prepared prepared_boundary{nullptr, PreparedDeleter{context.get()}};
};

Region::Region(const Ring& outline, const std::vector<Ring>& holes) : geos_(std::make_unique<Geos>()) {
  const auto context = geos_->context.get();
  geos_->area = polygon(context, outline, holes);
  geos_->boundary.reset(GEOSBoundary_r(context, geos_->area.get()));
  geos_->prepared_area.reset(GEOSPrepare_r(context, geos_->area.get()));
  geos_->prepared_boundary.reset(GEOSPrepare_r(context, geos_->boundary.get()));
}

Region::~Region() = default;

bool Region::contains(Point point) const {
  const auto context = geos_->context.get();
  const Geometry probe = point_geometry(context, point);
  return GEOSPreparedContains_r(context, geos_->prepared_area.get(), probe.get()) == 1;
}

double Region::distance_to_boundary(Point point) const {
  const auto context = geos_->context.get();
  const Geometry probe = point_geometry(context, point);
  double distance = 0;
  GEOSPreparedDistance_r(context, geos_->prepared_boundary.get(), probe.get(), &distance);
  return distance;
}

double Region::distance_to_boundary(const Ring& ring) const {
  const auto context = geos_->context.get();
  const Geometry probe = polygon(context, ring);
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
  const auto context = geos_->context.get();
  const Geometry left(GEOSBuffer_r(context, geos_->area.get(), -inset_mm, quarter_segments), GeometryDeleter{context});
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
