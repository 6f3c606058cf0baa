#include "leaf/contour.h"

#include "leaf/arc.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::leaf {
namespace {

double cross(Point a, Point b) { return a.x * b.z - a.z * b.x; }

void include(Box& box, Point p) {
  box.left = std::min(box.left, p.x);
  box.right = std::max(box.right, p.x);
  box.bottom = std::min(box.bottom, p.z);
  box.top = std::max(box.top, p.z);
}

Point bezier(Point a, Point b, Point c, Point d, double t) {
  const double u = 1 - t, wa = u * u * u, wb = 3 * u * u * t, wc = 3 * u * t * t, wd = t * t * t;
  return {wa * a.x + wb * b.x + wc * c.x + wd * d.x, wa * a.z + wb * b.z + wc * c.z + wd * d.z};
}

/// The same curve with one degree more.
Cubic raised(Point from, const Quadratic& q) {
  return {{(from.x + 2 * q.control.x) / 3, (from.z + 2 * q.control.z) / 3},
          {(q.to.x + 2 * q.control.x) / 3, (q.to.z + 2 * q.control.z) / 3},
          q.to};
}

/// Where one coordinate of a cubic turns: zeros in (0, 1) of its derivative a t^2 + 2 b t + c (a third of it).
std::vector<double> turning_parameters(double p0, double p1, double p2, double p3) {
  const double a = p3 - 3 * p2 + 3 * p1 - p0, b = p2 - 2 * p1 + p0, c = p1 - p0;
  const double root = b * b - a * c;
  if (root < 0)
    return {};
  const double q = -(b + std::copysign(std::sqrt(root), b)); // stable when a is small
  std::vector<double> found;
  for (const double t : {q / a, c / q})
    if (t > 0 && t < 1) // also false for the NaN and infinity of a vanishing divisor
      found.push_back(t);
  return found;
}

struct BoundsOf {
  Box& box;
  Point from;
  void operator()(const Line&) const {}
  void operator()(const Quadratic& q) const { (*this)(raised(from, q)); }
  void operator()(const Cubic& k) const {
    for (const double t : turning_parameters(from.x, k.control1.x, k.control2.x, k.to.x))
      include(box, bezier(from, k.control1, k.control2, k.to, t));
    for (const double t : turning_parameters(from.z, k.control1.z, k.control2.z, k.to.z))
      include(box, bezier(from, k.control1, k.control2, k.to, t));
  }
  void operator()(const Arc& arc) const {
    const auto centre = centred(from, arc);
    if (!centre)
      return;
    const double c = std::cos(centre->rotation_rad), s = std::sin(centre->rotation_rad);
    const double furthest_x = std::atan2(-centre->radius_z * s, centre->radius_x * c);
    const double furthest_z = std::atan2(centre->radius_z * c, centre->radius_x * s);
    for (const double first : {furthest_x, furthest_z})
      for (const double angle : {first, first + std::numbers::pi})
        if (passes(*centre, angle))
          include(box, centre->at(angle));
  }
  static bool passes(const CentredArc& arc, double angle) {
    const double direction = arc.turn_rad < 0 ? -1 : 1, full = 2 * std::numbers::pi;
    const double ahead = std::fmod(std::fmod(direction * (angle - arc.start_rad), full) + full, full);
    return ahead < std::abs(arc.turn_rad);
  }
};

/// Twice the area swept from the origin, by Green's theorem: integral of x dz - z dx.
struct SweptArea {
  Point from;
  double operator()(const Line& s) const { return cross(from, s.to); }
  double operator()(const Quadratic& q) const { return (*this)(raised(from, q)); }
  double operator()(const Cubic& k) const {
    const Point a = from, b = k.control1, c = k.control2, d = k.to;
    return (6 * cross(a, b) + 3 * cross(a, c) + cross(a, d) + 3 * cross(b, c) + 3 * cross(b, d) + 6 * cross(c, d)) / 10;
  }
  double operator()(const Arc& arc) const {
    const auto centre = centred(from, arc);
    if (!centre)
      return cross(from, arc.to);
    const Point chord{arc.to.x - from.x, arc.to.z - from.z};
    return cross(centre->centre, chord) + centre->radius_x * centre->radius_z * centre->turn_rad;
  }
};

struct Reverser {
  Point to;
  Segment operator()(const Line&) const { return Line{to}; }
  Segment operator()(const Quadratic& q) const { return Quadratic{q.control, to}; }
  Segment operator()(const Cubic& k) const { return Cubic{k.control2, k.control1, to}; }
  Segment operator()(const Arc& a) const { return Arc{a.radius_x, a.radius_z, a.rotation_deg, a.large, !a.sweep, to}; }
};

Point mirror(Point p) { return {-p.x, p.z}; }

struct Mirror {
  Segment operator()(const Line& s) const { return Line{mirror(s.to)}; }
  Segment operator()(const Quadratic& q) const { return Quadratic{mirror(q.control), mirror(q.to)}; }
  Segment operator()(const Cubic& k) const { return Cubic{mirror(k.control1), mirror(k.control2), mirror(k.to)}; }
  Segment operator()(const Arc& a) const {
    return Arc{a.radius_x, a.radius_z, -a.rotation_deg, a.large, !a.sweep, mirror(a.to)};
  }
};

} // namespace

Point end_of(const Segment& segment) {
  return std::visit([](const auto& s) { return s.to; }, segment);
}

Box bounds(const Contour& contour) {
  Point from = contour.start;
  Box box{from.x, from.x, from.z, from.z};
  for (const Segment& segment : contour.segments) {
    std::visit(BoundsOf{box, from}, segment);
    from = end_of(segment);
    include(box, from);
  }
  return box;
}

Box bounds(const Ring& ring) {
  Box box{ring.front().x, ring.front().x, ring.front().z, ring.front().z};
  for (const Point p : ring)
    include(box, p);
  return box;
}

double signed_area(const Contour& contour) {
  double twice = 0;
  Point from = contour.start;
  for (const Segment& segment : contour.segments) {
    twice += std::visit(SweptArea{from}, segment);
    from = end_of(segment);
  }
  return twice / 2;
}

double signed_area(const Ring& ring) {
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += cross(ring[i], ring[(i + 1) % ring.size()]);
  return twice / 2;
}

Contour reversed(const Contour& contour) {
  Contour result{contour.segments.empty() ? contour.start : end_of(contour.segments.back()), {}};
  for (std::size_t i = contour.segments.size(); i-- > 0;) {
    const Point to = i == 0 ? contour.start : end_of(contour.segments[i - 1]);
    result.segments.push_back(std::visit(Reverser{to}, contour.segments[i]));
  }
  return result;
}

Contour mirrored(const Contour& contour) {
  Contour result{mirror(contour.start), {}};
  for (const Segment& segment : contour.segments)
    result.segments.push_back(std::visit(Mirror{}, segment));
  return result;
}

} // namespace fanwright::leaf
