#include "leaf/outline.h"

#include "leaf/arc.h"
#include "leaf/contour.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace fanwright::leaf {
namespace {

double second_difference(Point a, Point b, Point c) { return std::hypot(a.x - 2 * b.x + c.x, a.z - 2 * b.z + c.z); }

/// A chord over a parameter step h misses a curve by at most h^2 max|P''| / 8.
int pieces(double largest_second_derivative, double tolerance_mm) {
  return std::max(1, static_cast<int>(std::ceil(std::sqrt(largest_second_derivative / (8 * tolerance_mm)))));
}

int pieces(Point, const Line&, double) { return 1; }

int pieces(Point from, const Quadratic& q, double tolerance_mm) {
  return pieces(2 * second_difference(from, q.control, q.to), tolerance_mm);
}

int pieces(Point from, const Cubic& c, double tolerance_mm) {
  const double bend =
      std::max(second_difference(from, c.control1, c.control2), second_difference(c.control1, c.control2, c.to));
  return pieces(6 * bend, tolerance_mm);
}

/// An ellipse is a unit circle stretched at most by its larger radius r, so a step a misses by at most r (1 - cos a/2).
int pieces(Point from, const Arc& arc, double tolerance_mm) {
  const auto centre = centred(from, arc);
  if (!centre)
    return 1;
  const double radius = std::max(centre->radius_x, centre->radius_z);
  // 1 - cos(a/2) = 2 sin^2(a/4) keeps its digits where the tolerance is a tiny part of the radius.
  const double step = 4 * std::asin(std::sqrt(std::min(0.125, tolerance_mm / (2 * radius))));
  return std::max(1, static_cast<int>(std::ceil(std::abs(centre->turn_rad) / step)));
}

Point point_on(Point from, const Line& line, double t) {
  return {from.x + t * (line.to.x - from.x), from.z + t * (line.to.z - from.z)};
}

Point point_on(Point from, const Quadratic& q, double t) {
  const double u = 1 - t, a = u * u, b = 2 * u * t, c = t * t;
  return {a * from.x + b * q.control.x + c * q.to.x, a * from.z + b * q.control.z + c * q.to.z};
}

Point point_on(Point from, const Cubic& k, double t) {
  const double u = 1 - t, a = u * u * u, b = 3 * u * u * t, c = 3 * u * t * t, d = t * t * t;
  return {a * from.x + b * k.control1.x + c * k.control2.x + d * k.to.x,
          a * from.z + b * k.control1.z + c * k.control2.z + d * k.to.z};
}

Point point_on(Point from, const Arc& arc, double t) {
  const auto centre = centred(from, arc);
  return centre ? centre->at(centre->start_rad + t * centre->turn_rad) : arc.to;
}

void append(Ring& ring, Point point) {
  if (!(ring.back() == point))
    ring.push_back(point);
}

Point times(Point p, double factor) { return {p.x * factor, p.z * factor}; }

struct Scaler {
  double factor;
  Segment operator()(const Line& s) const { return Line{times(s.to, factor)}; }
  Segment operator()(const Quadratic& s) const { return Quadratic{times(s.control, factor), times(s.to, factor)}; }
  Segment operator()(const Cubic& s) const {
    return Cubic{times(s.control1, factor), times(s.control2, factor), times(s.to, factor)};
  }
  Segment operator()(const Arc& s) const {
    return Arc{s.radius_x * factor, s.radius_z * factor, s.rotation_deg, s.large, s.sweep, times(s.to, factor)};
  }
};

} // namespace

Ring flatten(const Contour& contour, double tolerance_mm) {
  assert(tolerance_mm > 0);
  Ring ring{contour.start};
  for (const Segment& segment : contour.segments) {
    const Point from = ring.back();
    std::visit(
        [&](const auto& s) {
          const int count = pieces(from, s, tolerance_mm);
          for (int i = 1; i < count; ++i)
            append(ring, point_on(from, s, static_cast<double>(i) / count));
        },
        segment);
    append(ring, end_of(segment));
  }
  if (ring.size() > 1 && ring.back() == ring.front())
    ring.pop_back();
  return ring;
}

double flattened_size(const Contour& contour, double tolerance_mm) {
  double total = 0;
  Point from = contour.start;
  for (const Segment& segment : contour.segments) {
    total += std::visit([&](const auto& s) { return pieces(from, s, tolerance_mm); }, segment);
    from = end_of(segment);
  }
  return total;
}

Contour scaled(const Contour& contour, double factor) {
  assert(factor > 0);
  Contour result{times(contour.start, factor), {}};
  result.segments.reserve(contour.segments.size());
  for (const Segment& segment : contour.segments)
    result.segments.push_back(std::visit(Scaler{factor}, segment));
  return result;
}

} // namespace fanwright::leaf
