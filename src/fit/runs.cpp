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
    Run run{stretch, stretch};
    for (Point& p : run.flat) {
      p.x -= hub_mm;
    }
    runs.push_back(std::move(run));
  }
  return runs;
}

std::vector<std::vector<Point>> clipped(const std::vector<Run>& runs) {
  // Points left of the spine are dropped; the outline begins where it first comes to the right of it, and ends where
  // it first goes back.
  std::vector<std::vector<Point>> kept;
  bool begun = false;
  for (const Run& run : runs) {
    std::vector<Point> points;
    for (std::size_t k = 0; k < run.flat.size(); ++k) {
      const Point p = run.flat[k];
      const bool right = p.x > 0;
      if (k > 0 && right != (run.flat[k - 1].x > 0)) {
        const Point q = run.flat[k - 1];
        const Point crossing{0, q.z + (p.z - q.z) * q.x / (q.x - p.x)};
        // A last step too short to tell a direction would bend the curve that is laid through it.
        if (!right && points.size() > 2 && distance(points.back(), crossing) < 0.2 * tolerance::point_spacing_mm) {
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

std::string path_of(const std::vector<std::vector<Point>>& runs, bool curves, bool closed) {
  std::string text;
  for (const auto& run : runs) {
    if (text.empty()) {
      append(text, 'M', run.front());
    }
    if (curves) {
      for (const leaf::Segment& segment : smooth(run, tolerance::curve_mm)) {
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
