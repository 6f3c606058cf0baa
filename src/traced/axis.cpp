#include "traced/axis.h"

#include "leaf/contour.h"
#include "traced/along.h"
#include "traced/nearest_edge.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::traced {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double most_tilt_deg = 20;

Point mirrored_in(const Frame& axis, Point p) {
  const Point normal{std::cos(axis.tilt_rad), std::sin(axis.tilt_rad)};
  const double away = normal.x * (p.x - axis.origin.x) + normal.z * (p.z - axis.origin.z);
  return {p.x - 2 * away * normal.x, p.z - 2 * away * normal.z};
}

Point centroid_of(const Area& area) {
  double sum = 0, x = 0, z = 0;
  const auto add = [&](const Ring& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const Point a = ring[k], b = ring[(k + 1) % ring.size()];
      const double cross = a.x * b.z - b.x * a.z;
      sum += cross;
      x += cross * (a.x + b.x) / 3;
      z += cross * (a.z + b.z) / 3;
    }
  };
  add(area.outline);
  for (const Ring& hole : area.holes)
    add(hole);
  return {x / sum, z / sum};
}

/// Rings that points of an edge are held against, and these points, evenly spread.
struct Edge {
  std::vector<Ring> rings;
  std::vector<Point> points;
};

Edge edge_of(const Area& area, int count) {
  double total = length_of(area.outline, true);
  for (const Ring& hole : area.holes)
    total += length_of(hole, true);
  Edge edge;
  const auto add = [&](const Ring& ring) {
    if (edge.rings.empty() || length_of(ring, true) > 0.002 * total)
      edge.rings.push_back(spread_along(ring, true, total / count, 12));
  };
  add(area.outline);
  for (const Ring& hole : area.holes)
    add(hole);
  for (const Ring& ring : edge.rings)
    edge.points.insert(edge.points.end(), ring.begin(), ring.end());
  return edge;
}

double mean_distance(const std::vector<Point>& points, const NearestEdge& edges, const Frame& axis, double cap) {
  double sum = 0;
  for (const Point& p : points)
    sum += std::min(cap, edges.to(mirrored_in(axis, p)).distance);
  return sum / static_cast<double>(points.size());
}

/// One step of weighted least squares. A point p mirrors to p - 2 a n, a = n . (p - o), n = (cos t, sin t). With
/// m the edge's normal at the foot q of the mirrored point, r = m . (p' - q) changes by
///   dr/dt = -2 (m . n) (n' . (p - o)) - 2 a (m . n'), n' = (-sin t, cos t);   dr/dc = 2 (m . n), o moved by c n.
double improve(const std::vector<Point>& points, const NearestEdge& edges, Frame& axis, double spread) {
  const Point n{std::cos(axis.tilt_rad), std::sin(axis.tilt_rad)}, turned{-n.z, n.x};
  double tt = 0, tc = 0, cc = 0, tr = 0, cr = 0;
  for (const Point& p : points) {
    const Point image = mirrored_in(axis, p);
    const Foot foot = edges.to(image);
    const Point m{-foot.along.z, foot.along.x};
    const double r = m.x * (image.x - foot.at.x) + m.z * (image.z - foot.at.z);
    const double a = n.x * (p.x - axis.origin.x) + n.z * (p.z - axis.origin.z);
    const double up = turned.x * (p.x - axis.origin.x) + turned.z * (p.z - axis.origin.z);
    const double across = m.x * n.x + m.z * n.z, along = m.x * turned.x + m.z * turned.z;
    const double by_tilt = -2 * across * up - 2 * a * along, by_shift = 2 * across;
    const double weight = 1 / (1 + foot.distance * foot.distance / (spread * spread));
    tt += weight * by_tilt * by_tilt;
    tc += weight * by_tilt * by_shift;
    cc += weight * by_shift * by_shift;
    tr += weight * by_tilt * r;
    cr += weight * by_shift * r;
  }
  tt *= 1 + 1e-9; // a disc has no tilt
  const double determinant = tt * cc - tc * tc;
  if (!(determinant > 1e-9 * tt * cc))
    return 0;
  const double tilt = std::clamp(-(tr * cc - cr * tc) / determinant, -2 * degree, 2 * degree);
  const double shift = -(tt * cr - tc * tr) / determinant;
  axis.tilt_rad += tilt;
  axis.origin = {axis.origin.x + shift * n.x, axis.origin.z + shift * n.z};
  return std::abs(tilt);
}

double size_of(const Ring& ring) {
  const leaf::Box box = leaf::bounds(ring);
  return std::max(box.width(), box.height());
}

} // namespace

Point Frame::to_leaf(Point p) const {
  const double c = std::cos(tilt_rad), s = std::sin(tilt_rad);
  const double x = p.x - origin.x, z = p.z - origin.z;
  const double across = c * x + s * z;
  return {scale * (mirrored ? -across : across), scale * (c * z - s * x) + lift_mm};
}

Point Frame::to_file(Point p) const {
  const double c = std::cos(tilt_rad), s = std::sin(tilt_rad);
  const double across = (mirrored ? -p.x : p.x) / scale, up = (p.z - lift_mm) / scale;
  return {origin.x + c * across - s * up, origin.z + s * across + c * up};
}

Areas placed(const Areas& areas, const Frame& frame) {
  Areas result = areas;
  const auto place = [&](Ring& ring) {
    for (Point& p : ring)
      p = frame.to_leaf(p);
    if (frame.mirrored)
      std::reverse(ring.begin(), ring.end());
  };
  for (Area& area : result) {
    place(area.outline);
    for (Ring& hole : area.holes)
      place(hole);
  }
  return result;
}

Symmetry symmetry_of(const Area& area) {
  const double size = size_of(area.outline);
  // Cut-outs may differ from side to side on purpose: the outline alone finds the axis.
  const Area whole{area.outline, {}};
  const Edge coarse = edge_of(whole, 160);
  const NearestEdge coarse_edges(coarse.rings);
  Frame best;
  double least = 1e300;
  const Point centre = centroid_of(whole);
  for (double tilt = -most_tilt_deg; tilt <= most_tilt_deg; tilt += 2)
    for (int aside = -4; aside <= 4; ++aside) { // a handle draws the centre to its side
      Frame axis;
      axis.tilt_rad = tilt * degree;
      const double shift = 0.02 * aside * size;
      axis.origin = {centre.x + shift * std::cos(axis.tilt_rad), centre.z + shift * std::sin(axis.tilt_rad)};
      // Among equals the more upright one.
      const double cost = mean_distance(coarse.points, coarse_edges, axis, 0.04 * size) + 1e-5 * size * std::abs(tilt);
      if (cost < least) {
        least = cost;
        best = axis;
      }
    }
  for (int k = 0; k < 15; ++k)
    improve(coarse.points, coarse_edges, best, std::max(least, 0.003 * size));
  Edge fine = edge_of(whole, 900);
  constexpr std::size_t most_exact = 2500;
  if (area.outline.size() < most_exact)
    fine.rings.front() = area.outline; // evenly spread points would cut its corners
  const NearestEdge fine_edges(fine.rings);
  double spread = std::max(mean_distance(fine.points, fine_edges, best, 0.04 * size), 0.001 * size);
  for (int k = 0; k < 12 && improve(fine.points, fine_edges, best, spread) > 1e-7; ++k)
    spread = std::max(0.7 * spread, 0.001 * size);

  Symmetry result;
  result.axis = best;
  result.outline_mean = mean_distance(fine.points, fine_edges, best, size);
  if (!area.holes.empty()) {
    const Edge all = edge_of(area, 900);
    fine.points = all.points;
    fine.rings.insert(fine.rings.end(), all.rings.begin() + 1, all.rings.end());
  }
  const NearestEdge all_edges(fine.rings);
  for (const Point& p : fine.points) {
    const double distance = all_edges.to(mirrored_in(best, p)).distance;
    result.mean += distance / static_cast<double>(fine.points.size());
    if (distance > result.largest) {
      result.largest = distance;
      result.largest_at = p;
    }
  }
  return result;
}

StraightSide straight_side_of(const Area& area) {
  const double size = size_of(area.outline);
  const double near = 0.004 * size;
  const Ring ring = spread_along(area.outline, true, size / 500, 12);
  const double spacing = length_of(ring, true) / static_cast<double>(ring.size());
  StraightSide best;
  for (double tilt = -most_tilt_deg; tilt <= most_tilt_deg; tilt += 0.5)
    for (const bool mirrored : {false, true}) {
      const Point n{std::cos(tilt * degree), std::sin(tilt * degree)};
      const double sign = mirrored ? -1 : 1;
      double least = 1e300, lowest = 1e300, highest = -1e300;
      for (const Point& p : ring) {
        least = std::min(least, sign * (n.x * p.x + n.z * p.z));
        lowest = std::min(lowest, n.x * p.z - n.z * p.x);
        highest = std::max(highest, n.x * p.z - n.z * p.x);
      }
      double length = 0;
      for (const Point& p : ring)
        length += sign * (n.x * p.x + n.z * p.z) < least + near ? spacing : 0;
      const double share = length / (highest - lowest);
      if (share > best.share + 1e-9) {
        best.share = share;
        best.axis.tilt_rad = tilt * degree;
        best.axis.mirrored = mirrored;
        best.axis.origin = {sign * least * n.x, sign * least * n.z};
      }
    }
  // The line of least squares through what lies along it, twice.
  for (int k = 0; k < 3; ++k) {
    double count = 0, a = 0, u = 0, au = 0, uu = 0;
    for (const Point& p : ring) {
      const Point q = best.axis.to_leaf(p);
      if (q.x > (k == 0 ? near : near / 2) + near)
        continue;
      ++count;
      a += q.x;
      u += q.z;
      au += q.x * q.z;
      uu += q.z * q.z;
    }
    const double determinant = count * uu - u * u;
    if (count < 3 || !(determinant > 0))
      break;
    const double slope = (count * au - a * u) / determinant, at_0 = (a - slope * u) / count;
    best.axis.origin = best.axis.to_file({at_0, 0});
    best.axis.tilt_rad += (best.axis.mirrored ? 1 : -1) * std::atan(slope);
  }
  return best;
}

} // namespace fanwright::traced
