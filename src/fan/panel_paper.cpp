#include "fan/panel_paper.h"

#include "fan/seat_room.h"
#include "leaf/contour.h"
#include "leaf/geos.h"

#include <algorithm>

namespace fanwright::fan {
namespace {

using leaf::Point;
using leaf::Ring;

constexpr double least_area_mm2 = 0.01; // no blade cuts less

/// The whole strip without flap, counter-clockwise from its lower left corner.
Ring outline_of(const Strip& strip) {
  Ring ring{{0, 0}, {strip.length_mm(), 0}};
  for (auto run = strip.edge.rbegin(); run != strip.edge.rend(); ++run) {
    for (auto point = run->rbegin(); point != run->rend(); ++point) {
      if (ring.back().x != point->x || ring.back().z != point->z) {
        ring.push_back(*point);
      }
    }
  }
  return ring;
}

/// The parts of the strip between two creases.
std::vector<Ring> between(const leaf::Geos& geos, const GEOSGeometry* strip, double from, double to, double height) {
  const leaf::Geometry slab = leaf::polygon(geos, {{from, -1}, {to, -1}, {to, height + 1}, {from, height + 1}});
  const leaf::Geometry paper = geos.own(GEOSIntersection_r(geos.get(), strip, slab.get()));
  std::vector<Ring> rings;
  const int count = paper ? GEOSGetNumGeometries_r(geos.get(), paper.get()) : 0;
  for (int i = 0; i < count; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(geos.get(), paper.get(), i);
    if (GEOSGeomTypeId_r(geos.get(), part) != GEOS_POLYGON || GEOSisEmpty_r(geos.get(), part) != 0) {
      continue;
    }
    Ring ring = leaf::ring_of(geos, GEOSGetExteriorRing_r(geos.get(), part), true);
    if (leaf::signed_area(ring) >= least_area_mm2) {
      rings.push_back(std::move(ring));
    }
  }
  return rings;
}

} // namespace

PanelPaper::PanelPaper(const Placed& placed)
    : panels_(std::make_unique<const Panels>(placed.at, placed.spread, placed.strip)), depth_mm_(placed.strip.depth_mm),
      facing_(placed.at.axes[2]) {
  const leaf::Geos geos;
  const leaf::Geometry strip = leaf::polygon(geos, outline_of(placed.strip));
  const double height = placed.strip.height_mm();
  for (int k = 0; k < placed.strip.panels; ++k) {
    rings_.push_back(between(geos, strip.get(), k * depth_mm_, (k + 1) * depth_mm_, height));
  }
}

PanelPaper::~PanelPaper() = default;
PanelPaper::PanelPaper(PanelPaper&&) noexcept = default;

double PanelPaper::area_mm2() const {
  double area = 0;
  for (const auto& rings : rings_) {
    for (const Ring& ring : rings) {
      area += leaf::signed_area(ring);
    }
  }
  return area;
}

Point3 PanelPaper::place(int panel, Point flat) const { return panels_->at(panel, flat.x / depth_mm_ - panel, flat.z); }

} // namespace fanwright::fan
