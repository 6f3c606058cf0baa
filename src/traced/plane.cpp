#include "traced/plane.h"

#include "leaf/contour.h"
#include "leaf/geos.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace fanwright::traced {
namespace {

using leaf::Geometry;
using leaf::Geos;

constexpr int quarter_segments = 16; ///< of arcs: within 0.05 % of the reach

Geometry collection(const Geos& geos, int type, std::vector<Geometry> parts) {
  std::vector<GEOSGeometry*> raw;
  raw.reserve(parts.size());
  for (Geometry& part : parts)
    raw.push_back(part.release());
  return geos.own(GEOSGeom_createCollection_r(geos.get(), type, raw.data(), static_cast<unsigned>(raw.size())));
}

Geometry to_geometry(const Geos& geos, const Areas& areas) {
  std::vector<Geometry> parts;
  for (const Area& area : areas)
    parts.push_back(leaf::polygon(geos, area.outline, area.holes));
  return collection(geos, GEOS_MULTIPOLYGON, std::move(parts));
}

void collect(const Geos& geos, const GEOSGeometry* geometry, Areas& areas) {
  if (geometry == nullptr || GEOSisEmpty_r(geos.get(), geometry) == 1)
    return;
  if (GEOSGeomTypeId_r(geos.get(), geometry) == GEOS_POLYGON) {
    Area area{leaf::ring_of(geos, GEOSGetExteriorRing_r(geos.get(), geometry), true), {}};
    for (int k = 0; k < GEOSGetNumInteriorRings_r(geos.get(), geometry); ++k)
      area.holes.push_back(leaf::ring_of(geos, GEOSGetInteriorRingN_r(geos.get(), geometry, k), false));
    areas.push_back(std::move(area));
    return;
  }
  if (GEOSGeomTypeId_r(geos.get(), geometry) < GEOS_MULTIPOINT)
    return; // points and lines where areas merely touch
  for (int k = 0; k < GEOSGetNumGeometries_r(geos.get(), geometry); ++k)
    collect(geos, GEOSGetGeometryN_r(geos.get(), geometry, k), areas);
}

Areas to_areas(const Geos& geos, const Geometry& geometry) {
  Areas areas;
  collect(geos, geometry.get(), areas);
  return areas;
}

using Operation = GEOSGeometry* (*)(GEOSContextHandle_t, const GEOSGeometry*, const GEOSGeometry*);

Areas combined(const Areas& a, const Areas& b, Operation operation) {
  const Geos geos;
  const Geometry left = to_geometry(geos, a);
  const Geometry right = to_geometry(geos, b);
  return to_areas(geos, geos.own(operation(geos.get(), left.get(), right.get())));
}

Geometry line_string(const Geos& geos, const std::vector<Point>& points, bool closed) {
  const std::size_t count = points.size();
  const std::size_t total = count + (closed ? 1 : 0);
  GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(geos.get(), static_cast<unsigned>(total), 2);
  for (std::size_t k = 0; k < total; ++k)
    GEOSCoordSeq_setXY_r(geos.get(), sequence, static_cast<unsigned>(k), points[k % count].x, points[k % count].z);
  return geos.own(GEOSGeom_createLineString_r(geos.get(), sequence));
}

/// How often `ring` runs round `p`, counter-clockwise.
int winding(const Ring& ring, Point p) {
  int turns = 0;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Point a = ring[k], b = ring[(k + 1) % ring.size()];
    if ((a.z <= p.z) == (b.z <= p.z))
      continue;
    const double side = (b.x - a.x) * (p.z - a.z) - (p.x - a.x) * (b.z - a.z);
    if (a.z <= p.z && side > 0)
      ++turns;
    if (a.z > p.z && side < 0)
      --turns;
  }
  return turns;
}

/// Rings with their boxes, so that most of them are passed over when a place is looked up.
class Turns {
public:
  explicit Turns(const std::vector<Ring>& rings) : rings_(rings) {
    for (const Ring& ring : rings)
      boxes_.push_back(leaf::bounds(ring));
  }

  bool inside(Point p, FillRule rule) const {
    int turns = 0;
    for (std::size_t k = 0; k < rings_.size(); ++k)
      if (const leaf::Box& box = boxes_[k]; p.z >= box.bottom && p.z <= box.top && p.x >= box.left && p.x <= box.right)
        turns += winding(rings_[k], p);
    return rule == FillRule::nonzero ? turns != 0 : turns % 2 != 0;
  }

private:
  const std::vector<Ring>& rings_;
  std::vector<leaf::Box> boxes_;
};

/// The faces that the rings cut the plane into.
Geometry faces_of(const Geos& geos, const std::vector<Ring>& rings) {
  std::vector<Geometry> lines;
  lines.reserve(rings.size());
  for (const Ring& ring : rings)
    lines.push_back(line_string(geos, ring, true));
  const Geometry all = collection(geos, GEOS_MULTILINESTRING, std::move(lines));
  const Geometry noded = geos.own(GEOSUnaryUnion_r(geos.get(), all.get()));
  const GEOSGeometry* list[] = {noded.get()};
  return geos.own(noded ? GEOSPolygonize_r(geos.get(), list, 1) : nullptr);
}

bool is_simple(const Geos& geos, const Ring& ring) {
  return GEOSisValid_r(geos.get(), leaf::polygon(geos, ring).get()) == 1;
}

} // namespace

Areas filled(const std::vector<Ring>& all, FillRule rule) {
  std::vector<Ring> rings;
  std::copy_if(all.begin(), all.end(), std::back_inserter(rings), [](const Ring& ring) { return ring.size() >= 3; });
  if (rings.empty())
    return Areas{};
  const Geos geos;
  if (rings.size() == 1 && is_simple(geos, rings.front())) {
    if (leaf::signed_area(rings.front()) < 0)
      std::reverse(rings.front().begin(), rings.front().end());
    return Areas{{rings.front(), {}}};
  }
  const Geometry faces = faces_of(geos, rings);
  const Turns turns(rings);
  std::vector<Geometry> kept;
  const int count = faces ? GEOSGetNumGeometries_r(geos.get(), faces.get()) : 0;
  for (int k = 0; k < count; ++k) {
    const GEOSGeometry* face = GEOSGetGeometryN_r(geos.get(), faces.get(), k);
    const Geometry middle = geos.own(GEOSPointOnSurface_r(geos.get(), face));
    Point p;
    if (!middle || GEOSGeomGetX_r(geos.get(), middle.get(), &p.x) != 1 ||
        GEOSGeomGetY_r(geos.get(), middle.get(), &p.z) != 1 || !turns.inside(p, rule))
      continue;
    kept.push_back(geos.own(GEOSGeom_clone_r(geos.get(), face)));
  }
  const Geometry chosen = collection(geos, GEOS_GEOMETRYCOLLECTION, std::move(kept));
  return to_areas(geos, geos.own(GEOSUnaryUnion_r(geos.get(), chosen.get())));
}

bool covers(const Areas& areas, Point p) {
  return std::any_of(areas.begin(), areas.end(), [&](const Area& area) {
    return winding(area.outline, p) != 0 &&
           std::all_of(area.holes.begin(), area.holes.end(), [&](const Ring& hole) { return winding(hole, p) == 0; });
  });
}

Areas united(const Areas& a, const Areas& b) { return combined(a, b, GEOSUnion_r); }
Areas without(const Areas& a, const Areas& b) { return combined(a, b, GEOSDifference_r); }
Areas shared(const Areas& a, const Areas& b) { return combined(a, b, GEOSIntersection_r); }

Areas united(const std::vector<Areas>& all) {
  const Geos geos;
  std::vector<Geometry> parts;
  for (const Areas& areas : all)
    for (const Area& area : areas)
      parts.push_back(leaf::polygon(geos, area.outline, area.holes));
  const Geometry together = collection(geos, GEOS_GEOMETRYCOLLECTION, std::move(parts));
  return to_areas(geos, geos.own(GEOSUnaryUnion_r(geos.get(), together.get())));
}

Areas grown(const Areas& areas, double reach, Corners corners) {
  constexpr double longest_spike = 5; // of a sharp corner, in reaches
  const Geos geos;
  const Geometry before = to_geometry(geos, areas);
  return to_areas(geos, geos.own(GEOSBufferWithStyle_r(
                            geos.get(), before.get(), reach, quarter_segments, GEOSBUF_CAP_ROUND,
                            corners == Corners::round ? GEOSBUF_JOIN_ROUND : GEOSBUF_JOIN_MITRE, longest_spike)));
}

Areas along_line(const std::vector<Point>& line, double width) {
  const Geos geos;
  const Geometry before = line_string(geos, line, false);
  return to_areas(geos, geos.own(GEOSBufferWithStyle_r(geos.get(), before.get(), width / 2, quarter_segments,
                                                       GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_ROUND, 5)));
}

std::size_t points_in(const Areas& areas) {
  std::size_t points = 0;
  for (const Area& area : areas) {
    points += area.outline.size();
    for (const Ring& hole : area.holes)
      points += hole.size();
  }
  return points;
}

double area_of(const Area& area) {
  double sum = leaf::signed_area(area.outline);
  for (const Ring& hole : area.holes)
    sum += leaf::signed_area(hole);
  return sum;
}

double area_of(const Areas& areas) {
  double sum = 0;
  for (const Area& area : areas)
    sum += area_of(area);
  return sum;
}

double widest_circle(const Area& area) {
  const Geos geos;
  const Geometry shape = leaf::polygon(geos, area.outline, area.holes);
  const leaf::Box box = leaf::bounds(area.outline);
  const double tolerance = std::max(box.width(), box.height()) / 100;
  const Geometry radius = geos.own(GEOSMaximumInscribedCircle_r(geos.get(), shape.get(), tolerance));
  double length = 0;
  if (radius)
    GEOSGeomGetLength_r(geos.get(), radius.get(), &length);
  return 2 * length;
}

} // namespace fanwright::traced
