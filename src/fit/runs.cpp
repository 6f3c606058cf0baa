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

/// Of the usual spacing; more than the shortest step.
constexpr double finest_share = 0.25;

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.z - b.z); }

/// The same line with no step longer than the finest spacing.
leaf::Ring subdivided(const leaf::Ring& line) {
  leaf::Ring fine{line.front()};
  for (std::size_t k = 1; k < line.size(); ++k) {
    const Point from = line[k - 1], to = line[k];
    const int parts = std::max(1, static_cast<int>(std::ceil(distance(from, to) / shortest_step_mm)));
    for (int part = 1; part <= parts; ++part) {
      const double t = static_cast<double>(part) / parts;
      fine.push_back({std::lerp(from.x, to.x, t), std::lerp(from.z, to.z, t)});
    }
  }
  return fine;
}

/// Distance wanted between points at `p`, mm: in the hub's reach the leaf turns within a few tenths of a radius.
double spacing_at(Point p, bool has_hub) {
  return has_hub ? tolerance::point_spacing_mm * std::clamp(p.x / tolerance::near_axis_mm, finest_share, 1.0)
                 : tolerance::point_spacing_mm;
}

/// Points along one segment, both ends included, as many between any two places as their spacing asks for.
std::vector<Point> along(Point start, const leaf::Segment& segment, bool has_hub) {
  constexpr double chord_mm = 0.002; // far below what is asked of the outline
  const Point end = leaf::end_of(segment);
  leaf::Ring fine = leaf::flatten({start, {segment, leaf::Line{start}}}, chord_mm);
  if (distance(fine.back(), end) > 1e-9) {
    fine.push_back(end);
  }
  fine = subdivided(fine);
  std::vector<double> spacings{0}; // passed up to each point
  for (std::size_t k = 1; k < fine.size(); ++k) {
    const Point middle{(fine[k - 1].x + fine[k].x) / 2, (fine[k - 1].z + fine[k].z) / 2};
    spacings.push_back(spacings.back() + distance(fine[k - 1], fine[k]) / spacing_at(middle, has_hub));
  }
  const double total = spacings.back();
  const int parts = std::max(4, static_cast<int>(std::ceil(total)));
  std::vector<Point> points{start};
  int next = 1;
  for (std::size_t k = 1; k < fine.size(); ++k) {
    while (next < parts && spacings[k] >= total * next / parts) {
      const double t = (total * next / parts - spacings[k - 1]) / (spacings[k] - spacings[k - 1]);
      points.push_back({std::lerp(fine[k - 1].x, fine[k].x, t), std::lerp(fine[k - 1].z, fine[k].z, t)});
      ++next;
    }
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

/// Goes on to a point. One so near to the last that no direction can be told is left out; at an end it takes its place.
void add(std::vector<Point>& points, Point p, bool is_end) {
  if (!points.empty() && distance(points.back(), p) < shortest_step_mm) {
    if (!is_end || distance(points.back(), p) < 1e-6)
      return;
    if (points.size() > 1)
      points.pop_back();
  }
  points.push_back(p);
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
    const std::vector<Point> points = along(start, wanted.segments[s], hub_mm > 0);
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
    const std::vector<Point>& flat = run.flat;
    std::vector<Point> points;
    for (std::size_t k = 0; k < flat.size(); ++k) {
      const Point p = flat[k];
      const bool right = p.x > 0;
      if (k > 0 && right != (flat[k - 1].x > 0)) {
        const Point q = flat[k - 1];
        const Point crossing{0, q.z + (p.z - q.z) * q.x / (q.x - p.x)};
        add(points, crossing, !right);
        begun = true;
        if (!right) {
          kept.push_back(points);
          return kept;
        }
      }
      if (right) {
        if (!begun) {
          points.push_back({0, p.z}); // starts right of the spine: joined to it level
          begun = true;
        }
        add(points, p, k + 1 == flat.size());
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
