#include "fit/smooth.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace fanwright::fit {
namespace {

using leaf::Point;
using Points = std::span<const Point>;

Point operator+(Point a, Point b) { return {a.x + b.x, a.z + b.z}; }
Point operator-(Point a, Point b) { return {a.x - b.x, a.z - b.z}; }
Point operator*(double s, Point a) { return {s * a.x, s * a.z}; }
double dot(Point a, Point b) { return a.x * b.x + a.z * b.z; }
double length(Point a) { return std::hypot(a.x, a.z); }
Point unit(Point a) { return (1.0 / std::max(length(a), 1e-12)) * a; }

using Bezier = std::array<Point, 4>;

/// Of the chord; a half circle needs two thirds (4 / 3 of its radius), and a curve whose handle nearly vanishes turns
/// within it.
constexpr double shortest_handle = 0.1, longest_handle = 1.0;
/// Of the chord, what both handles take of it together: a straight line needs two thirds, and handles that pass each
/// other make a kink that looks smooth and is not.
constexpr double most_along_chord = 0.9;

Point at(const Bezier& c, double t) {
  const double u = 1 - t;
  return u * u * u * c[0] + 3 * u * u * t * c[1] + 3 * u * t * t * c[2] + t * t * t * c[3];
}

Point first(const Bezier& c, double t) {
  const double u = 1 - t;
  return 3 * u * u * (c[1] - c[0]) + 6 * u * t * (c[2] - c[1]) + 3 * t * t * (c[3] - c[2]);
}

Point second(const Bezier& c, double t) {
  return 6 * (1 - t) * (c[2] - 2.0 * c[1] + c[0]) + 6 * t * (c[3] - 2.0 * c[2] + c[1]);
}

/// Tangent at points[0] of the parabola through the first three points, by chord lengths.
Point end_tangent(Point a, Point b, Point c) {
  const double ab = length(b - a);
  const double bc = length(c - b);
  const Point slope_ab = (1 / ab) * (b - a);
  const Point slope_bc = (1 / bc) * (c - b);
  return unit(slope_ab + (ab / (ab + bc)) * (slope_ab - slope_bc));
}

std::vector<double> chord_places(Points points) {
  std::vector<double> places(points.size(), 0.0);
  for (std::size_t k = 1; k < points.size(); ++k) {
    places[k] = places[k - 1] + length(points[k] - points[k - 1]);
  }
  for (double& place : places) {
    place /= places.back();
  }
  return places;
}

/// Least-squares cubic with given ends and end tangents; `in` and `out` both point into the curve.
Bezier best_cubic(Points points, const std::vector<double>& places, Point in, Point out) {
  const Point from = points.front();
  const Point to = points.back();
  double c00 = 0, c01 = 0, c11 = 0, x0 = 0, x1 = 0;
  for (std::size_t k = 0; k < points.size(); ++k) {
    const double t = places[k];
    const double u = 1 - t;
    const Point a = 3 * u * u * t * in;
    const Point b = 3 * u * t * t * out;
    const Point rest = points[k] - (u * u * (u + 3 * t)) * from - (t * t * (t + 3 * u)) * to;
    c00 += dot(a, a);
    c01 += dot(a, b);
    c11 += dot(b, b);
    x0 += dot(a, rest);
    x1 += dot(b, rest);
  }
  const double chord = length(to - from);
  const double share = c00 * c11 - c01 * c01;
  double left = share > 1e-12 * c00 * c11 ? (x0 * c11 - x1 * c01) / share : 0;
  double right = share > 1e-12 * c00 * c11 ? (c00 * x1 - c01 * x0) / share : 0;
  // A few points hardly decide both lengths; handles longer than the curve itself would throw a loop.
  const double along = dot(left * in - right * out, unit(to - from));
  if (std::min(left, right) < shortest_handle * chord || std::max(left, right) > longest_handle * chord ||
      along > most_along_chord * chord) {
    left = right = chord / 3; // no sound solution: the usual third of the chord
  }
  return {from, from + left * in, to + right * out, to};
}

/// Moves each place to the foot of the perpendicular from its point; one Newton step.
void move_places(const Bezier& curve, Points points, std::vector<double>& places) {
  for (std::size_t k = 1; k + 1 < points.size(); ++k) {
    const Point away = at(curve, places[k]) - points[k];
    const Point pace = first(curve, places[k]);
    const double bend = dot(pace, pace) + dot(away, second(curve, places[k]));
    if (std::abs(bend) > 1e-12) {
      places[k] = std::clamp(places[k] - dot(away, pace) / bend, 0.0, 1.0);
    }
  }
}

struct Miss {
  double distance = 0;
  std::size_t where = 0;
};

Miss worst(const Bezier& curve, Points points, const std::vector<double>& places) {
  Miss miss;
  for (std::size_t k = 1; k + 1 < points.size(); ++k) {
    const double distance = length(at(curve, places[k]) - points[k]);
    if (distance > miss.distance) {
      miss = {distance, k};
    }
  }
  return miss;
}

void fit(Points points, Point in, Point out, double tolerance, std::vector<leaf::Segment>& segments) {
  if (points.size() == 2) {
    const double third = length(points[1] - points[0]) / 3;
    segments.emplace_back(leaf::Cubic{points[0] + third * in, points[1] + third * out, points[1]});
    return;
  }
  std::vector<double> places = chord_places(points);
  Miss miss;
  for (int round = 0; round < 12; ++round) {
    const Bezier curve = best_cubic(points, places, in, out);
    miss = worst(curve, points, places);
    if (miss.distance <= tolerance) {
      segments.emplace_back(leaf::Cubic{curve[1], curve[2], curve[3]});
      return;
    }
    move_places(curve, points, places);
  }
  const std::size_t cut = miss.where;
  const Point through = unit(points[cut - 1] - points[cut + 1]);
  fit(points.first(cut + 1), in, through, tolerance, segments);
  fit(points.subspan(cut), -1.0 * through, out, tolerance, segments);
}

} // namespace

std::vector<leaf::Segment> smooth(const std::vector<leaf::Point>& points, double tolerance_mm,
                                  const EndDirections& ends) {
  std::vector<leaf::Segment> segments;
  const std::size_t n = points.size();
  const auto straight = [&](const Point& p) {
    const Point along = unit(points[n - 1] - points[0]);
    const Point away = p - points[0];
    return std::abs(along.x * away.z - along.z * away.x) <= 0.25 * tolerance_mm;
  };
  if (std::all_of(points.begin(), points.end(), straight)) {
    segments.emplace_back(leaf::Line{points[n - 1]});
    return segments;
  }
  const Point in = n > 2 ? end_tangent(points[0], points[1], points[2]) : unit(points[1] - points[0]);
  const Point out = n > 2 ? end_tangent(points[n - 1], points[n - 2], points[n - 3]) : unit(points[0] - points[1]);
  fit(points, ends.first.value_or(in), ends.last.value_or(out), tolerance_mm, segments);
  return segments;
}

} // namespace fanwright::fit
