#include "sheets/no_fit.h"

#include "sheets/exact.h"
#include "sheets/geos.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::sheets {

namespace {

constexpr double least_pocket_um = 20; // mean half width; narrower pockets are rounding, not room

struct Segment {
  Spot from, to;
};

/// Which of two edges of equal direction counts as first; makes the half-open turns of the two loops fit together.
enum class Tie { at_begin, at_end };

/// +1 when the turn from `in` to `out` sweeps over `along` anticlockwise, -1 when clockwise, else 0.
int sweeps(Spot in, Spot out, Spot along, Tie tie) {
  const std::int64_t turn = cross(in, out), from_in = cross(in, along), to_out = cross(along, out);
  if (turn > 0) {
    const bool within = tie == Tie::at_end ? from_in > 0 && to_out >= 0 : from_in >= 0 && to_out > 0;
    return within ? 1 : 0;
  }
  if (turn < 0) {
    const bool within = tie == Tie::at_end ? from_in <= 0 && to_out < 0 : from_in < 0 && to_out <= 0;
    return within ? -1 : 0;
  }
  return 0;
}

/// Every edge of `edges` carried to the points of `points` that turn over its direction.
void convolve(const Loop& edges, const Loop& points, Tie tie, std::vector<Segment>& result) {
  for (std::size_t k = 0; k < points.size(); ++k) {
    const Spot at = points[k];
    const Spot in = at - points[(k + points.size() - 1) % points.size()], out = points[(k + 1) % points.size()] - at;
    if (cross(in, out) == 0)
      continue;
    for (std::size_t i = 0; i < edges.size(); ++i) {
      const Spot from = edges[i], to = edges[(i + 1) % edges.size()];
      const int sense = sweeps(in, out, to - from, tie);
      if (sense > 0)
        result.push_back({from + at, to + at});
      else if (sense < 0)
        result.push_back({to + at, from + at});
    }
  }
}

// The second loop is thought turned by a vanishing angle anticlockwise, so that no two edges are parallel: the turns of
// the second then take in their end, those of the first their beginning.
std::vector<Segment> convolution(const Loop& first, const Loop& second) {
  std::vector<Segment> result;
  convolve(first, second, Tie::at_end, result);
  convolve(second, first, Tie::at_begin, result);
  return result;
}

int winding(const std::vector<Segment>& segments, double x, double z) {
  int turns = 0;
  for (const Segment& s : segments) {
    const double from_z = static_cast<double>(s.from.z), to_z = static_cast<double>(s.to.z);
    if ((from_z > z) == (to_z > z))
      continue;
    const double at =
        static_cast<double>(s.from.x) + static_cast<double>(s.to.x - s.from.x) * (z - from_z) / (to_z - from_z);
    if (at > x)
      turns += to_z > from_z ? 1 : -1;
  }
  return turns;
}

Loop negative(Loop loop) {
  for (Spot& spot : loop)
    spot = {-spot.x, -spot.z};
  return loop;
}

/// The curves that bound the region, and how to tell which of the faces between them belong to it.
struct Arrangement {
  const Shape& fixed;
  const Shape& moving;
  std::vector<Segment> outer; ///< of the outlines alone: moves it does not wind round are free
  std::vector<Segment> all;

  Arrangement(const Shape& first, const Shape& second) : fixed(first), moving(second) {
    const Loop outline = negative(second.outline);
    all = outer = convolution(first.outline, outline);
    const auto add = [this](const std::vector<Segment>& more) { all.insert(all.end(), more.begin(), more.end()); };
    for (const Loop& hole : first.holes)
      add(convolution(hole, outline));
    for (const Loop& hole : second.holes)
      add(convolution(first.outline, negative(hole)));
  }

  bool overlaps(double x, double z) const {
    if (winding(outer, x, z) <= 0)
      return false;
    if (all.size() == outer.size())
      return true;
    return !apart(fixed, moved(moving, {std::llround(x), std::llround(z)}), 1);
  }
};

Geometry lines_of(const Geos& geos, const std::vector<Segment>& segments) {
  std::vector<GEOSGeometry*> lines;
  for (const Segment& s : segments) {
    GEOSCoordSequence* ends = GEOSCoordSeq_create_r(geos.get(), 2, 2);
    GEOSCoordSeq_setXY_r(geos.get(), ends, 0, static_cast<double>(s.from.x), static_cast<double>(s.from.z));
    GEOSCoordSeq_setXY_r(geos.get(), ends, 1, static_cast<double>(s.to.x), static_cast<double>(s.to.z));
    lines.push_back(GEOSGeom_createLineString_r(geos.get(), ends));
  }
  return geos.own(
      GEOSGeom_createCollection_r(geos.get(), GEOS_MULTILINESTRING, lines.data(), static_cast<unsigned>(lines.size())));
}

Geometry overlapping_faces(const Geos& geos, const Arrangement& arrangement) {
  const Geometry lines = lines_of(geos, arrangement.all);
  const Geometry noded = geos.own(GEOSUnaryUnion_r(geos.get(), lines.get()));
  if (!noded)
    return geos.own(nullptr);
  const GEOSGeometry* one = noded.get();
  const Geometry faces = geos.own(GEOSPolygonize_r(geos.get(), &one, 1));
  if (!faces)
    return geos.own(nullptr);
  std::vector<GEOSGeometry*> kept;
  for (int i = 0; i < GEOSGetNumGeometries_r(geos.get(), faces.get()); ++i) {
    const GEOSGeometry* face = GEOSGetGeometryN_r(geos.get(), faces.get(), i);
    const Geometry inner = geos.own(GEOSPointOnSurface_r(geos.get(), face));
    double x = 0, z = 0;
    if (inner && GEOSGeomGetX_r(geos.get(), inner.get(), &x) == 1 && GEOSGeomGetY_r(geos.get(), inner.get(), &z) == 1 &&
        arrangement.overlaps(x, z))
      kept.push_back(GEOSGeom_clone_r(geos.get(), face));
  }
  return geos.own(
      GEOSGeom_createCollection_r(geos.get(), GEOS_MULTIPOLYGON, kept.data(), static_cast<unsigned>(kept.size())));
}

double length(const Loop& loop) {
  double sum = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Spot along = loop[(i + 1) % loop.size()] - loop[i];
    sum += std::hypot(static_cast<double>(along.x), static_cast<double>(along.z));
  }
  return sum;
}

bool wide_enough(const Loop& pocket) {
  return std::abs(static_cast<double>(doubled_area(pocket))) > least_pocket_um * length(pocket);
}

} // namespace

std::vector<Loop> no_fit_region(const Shape& fixed, const Shape& moving) {
  const Geos geos;
  const Geometry faces = overlapping_faces(geos, {fixed, moving});
  const Geometry whole = geos.own(faces ? GEOSCoverageUnion_r(geos.get(), faces.get()) : nullptr);
  std::vector<Loop> loops = loops_of(geos, whole.get());
  std::erase_if(loops, [](const Loop& loop) { return doubled_area(loop) <= 0 && !wide_enough(loop); });
  return loops;
}

std::vector<Loop> opposite(std::vector<Loop> region) {
  for (Loop& loop : region)
    loop = negative(std::move(loop));
  return region;
}

std::vector<Loop> grown(const std::vector<Loop>& region, double gap_um) {
  constexpr int sides_per_quarter = 8;
  // The library's arcs lie inside the true arc; a larger radius brings the middle of each side out to it.
  const double radius = gap_um / std::cos(std::numbers::pi / 4 / sides_per_quarter);
  const Geos geos;
  const Geometry area = area_of(geos, region);
  const Geometry larger = geos.own(area ? GEOSBuffer_r(geos.get(), area.get(), radius, sides_per_quarter) : nullptr);
  return loops_of(geos, larger.get());
}

} // namespace fanwright::sheets
