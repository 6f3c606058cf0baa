#include "fit/runs.h"

#include "fit/smooth.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace fanwright::fit {
namespace {

using leaf::Point;

/// A step too short to tell a direction would bend the curve that is laid through it.
constexpr double shortest_step_mm = 0.2 * tolerance::point_spacing_mm;

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.z - b.z); }

/// Points at equal distances along one segment, both ends included.
std::vector<Point> along(Point start, const leaf::Segment& segment) {
  constexpr double chord_mm = 0.002; // far below what is asked of the outline
  const Point end = leaf::end_of(segment);
  leaf::Ring fine = leaf::flatten({start, {segment, leaf::Line{start}}}, chord_mm);
  if (distance(fine.back(), end) > 1e-9) {
    fine.push_back(end);
  }
  double total = 0;
  for (std::size_t k = 1; k < fine.size(); ++k) {
    total += distance(fine[k - 1], fine[k]);
  }
  const int parts = std::max(4, static_cast<int>(std::ceil(total / tolerance::point_spacing_mm)));
  std::vector<Point> points{start};
  double passed = 0;
  int next = 1;
  for (std::size_t k = 1; k < fine.size(); ++k) {
    const double step = distance(fine[k - 1], fine[k]);
    while (next < parts && passed + step >= total * next / parts) {
      const double t = (total * next / parts - passed) / step;
      points.push_back(
          {fine[k - 1].x + t * (fine[k].x - fine[k - 1].x), fine[k - 1].z + t * (fine[k].z - fine[k - 1].z)});
      ++next;
    }
    passed += step;
  }
  points.push_back(end);
  return points;
}

/// Turn of the outline at `at`, degrees.
double turn(Point before, Point at, Point after) {
  const double in = std::atan2(at.z - before.z, at.x - before.x);
  const double out = std::atan2(after.z - at.z, after.x - at.x);
  return std::abs(std::remainder(out - in, 2 * std::numbers::pi)) * 180 / std::numbers::pi;
}

/// Where the lines through the two points before a kink and the two after it meet, if that is near and they turn there.
std::optional<Point> corner_at(const std::vector<Point>& points, std::size_t kink) {
  constexpr double least_turn_deg = 15, farthest = 2.0; // in steps of the points
  if (kink < 1 || kink + 2 >= points.size())
    return std::nullopt;
  const Point a = points[kink - 1], b = points[kink], c = points[kink + 1], d = points[kink + 2];
  const Point ab{b.x - a.x, b.z - a.z}, dc{c.x - d.x, c.z - d.z}, bc{c.x - b.x, c.z - b.z};
  const double across = ab.x * dc.z - ab.z * dc.x;
  if (std::abs(across) <
      std::sin(least_turn_deg * std::numbers::pi / 180) * std::hypot(ab.x, ab.z) * std::hypot(dc.x, dc.z))
    return std::nullopt;
  const double beyond_b = (bc.x * dc.z - bc.z * dc.x) / across, beyond_c = (bc.x * ab.z - bc.z * ab.x) / across;
  if (std::min(beyond_b, beyond_c) < 0 || std::max(beyond_b, beyond_c) > farthest)
    return std::nullopt;
  return Point{b.x + beyond_b * ab.x, b.z + beyond_b * ab.z};
}

/// The run's flat points, parted at its kinks.
std::vector<std::vector<Point>> parted(const Run& run) {
  std::vector<std::vector<Point>> parts{{}};
  for (std::size_t k = 0; k < run.flat.size(); ++k) {
    parts.back().push_back(run.flat[k]);
    if (!std::binary_search(run.kinks.begin(), run.kinks.end(), k))
      continue;
    if (const auto corner = corner_at(run.flat, k)) {
      if (parts.back().size() > 2 && distance(parts.back().back(), *corner) < shortest_step_mm)
        parts.back().pop_back();
      parts.back().push_back(*corner);
      parts.push_back({*corner});
      if (k + 3 < run.flat.size() && distance(run.flat[k + 1], *corner) < shortest_step_mm)
        ++k;
    }
  }
  return parts;
}

void append(std::string& text, char command, Point p) {
  char buffer[64];
  std::snprintf(buffer, sizeof buffer, "%c %.6f %.6f ", command, p.x, p.z);
  text += buffer;
}

/// A curve lies within its control points: those right of the spine keep it there.
Point right_of_spine(Point p) { return {std::max(0.0, p.x), p.z}; }

void append(std::string& text, const leaf::Segment& segment) {
  if (const auto* cubic = std::get_if<leaf::Cubic>(&segment)) {
    append(text, 'C', right_of_spine(cubic->control1));
    append(text, ' ', right_of_spine(cubic->control2));
    append(text, ' ', cubic->to);
  } else {
    append(text, 'L', leaf::end_of(segment));
  }
}

} // namespace

std::vector<Run> runs_of(const leaf::Contour& wanted, double hub_mm, bool closed) {
  std::vector<std::vector<Point>> stretches;
  Point start = wanted.start;
  // An outline's last segment is the spine, which is not drawn.
  const std::size_t count = wanted.segments.size() - (closed ? 0 : 1);
  for (std::size_t s = 0; s < count; ++s) {
    const Point end = leaf::end_of(wanted.segments[s]);
    if (distance(start, end) < 1e-9 && std::holds_alternative<leaf::Line>(wanted.segments[s])) {
      continue;
    }
    const std::vector<Point> points = along(start, wanted.segments[s]);
    const bool goes_on = !stretches.empty() && turn(stretches.back()[stretches.back().size() - 2], points[0],
                                                    points[1]) < tolerance::corner_deg;
    if (goes_on) {
      stretches.back().insert(stretches.back().end(), points.begin() + 1, points.end());
    } else {
      stretches.push_back(points);
    }
    start = end;
  }
  std::vector<Run> runs;
  for (const auto& stretch : stretches) {
    Run run{stretch, stretch, {}};
    for (Point& p : run.flat) {
      p.x -= hub_mm;
    }
    runs.push_back(std::move(run));
  }
  return runs;
}

std::vector<std::vector<Point>> clipped(const std::vector<Run>& runs) {
  std::vector<std::vector<Point>> stretches;
  for (const Run& run : runs)
    for (std::vector<Point>& part : parted(run))
      stretches.push_back(std::move(part));
  // Points left of the spine are dropped; the outline begins where it first comes to the right of it, and ends where
  // it first goes back.
  std::vector<std::vector<Point>> kept;
  bool begun = false;
  for (const std::vector<Point>& flat : stretches) {
    std::vector<Point> points;
    for (std::size_t k = 0; k < flat.size(); ++k) {
      const Point p = flat[k];
      const bool right = p.x > 0;
      if (k > 0 && right != (flat[k - 1].x > 0)) {
        const Point q = flat[k - 1];
        const Point crossing{0, q.z + (p.z - q.z) * q.x / (q.x - p.x)};
        if (!right && points.size() > 2 && distance(points.back(), crossing) < shortest_step_mm) {
          points.pop_back();
        }
        points.push_back(crossing);
        begun = true;
        if (!right) {
          kept.push_back(points);
          return kept;
        }
      }
      if (right && (points.empty() || distance(points.back(), p) > 1e-6)) {
        if (!begun) {
          points.push_back({0, p.z}); // starts right of the spine: joined to it level
          begun = true;
        }
        points.push_back(p);
      }
    }
    if (points.size() >= 2) {
      kept.push_back(points);
    }
  }
  if (!kept.empty() && kept.back().back().x > 0) {
    kept.push_back({kept.back().back(), {0, kept.back().back().z}});
  }
  return kept;
}

std::string path_of(const std::vector<std::vector<Point>>& runs, std::optional<double> curve_mm, bool closed) {
  std::string text;
  for (const auto& run : runs) {
    if (text.empty()) {
      append(text, 'M', run.front());
    }
    if (curve_mm) {
      for (const leaf::Segment& segment : smooth(run, *curve_mm)) {
        append(text, segment);
      }
    } else {
      for (std::size_t k = 1; k < run.size(); ++k) {
        append(text, 'L', run[k]);
      }
    }
  }
  return closed ? text + "Z " : text;
}

} // namespace fanwright::fit
