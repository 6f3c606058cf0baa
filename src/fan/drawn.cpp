#include "fan/drawn.h"

#include "fan/tolerances.h"
#include "fit/runs.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

using leaf::Point;
constexpr double pi = std::numbers::pi;

design::Refusal refused(std::string sentence) { return {"/outline", std::move(sentence)}; }

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.z - b.z); }

/// Distances and turns of all points, the turn followed from point to point, clockwise positive.
DrawnPolar followed(const std::vector<fit::Run>& runs) {
  DrawnPolar drawn;
  double turned = 0;
  Point before = runs.front().wanted.front();
  for (const fit::Run& run : runs) {
    auto& polar = drawn.runs.emplace_back();
    for (const Point point : run.wanted) {
      turned += std::atan2(before.z * point.x - before.x * point.z, before.x * point.x + before.z * point.z);
      before = point;
      polar.push_back({std::hypot(point.x, point.z), turned});
      drawn.reach_mm = std::max(drawn.reach_mm, polar.back().distance_mm);
    }
  }
  return drawn;
}

/// The same edge from its other end.
void turn_round(DrawnPolar& drawn) {
  const double last = drawn.runs.back().back().turned_rad;
  std::reverse(drawn.runs.begin(), drawn.runs.end());
  for (auto& run : drawn.runs) {
    std::reverse(run.begin(), run.end());
    for (Polar& point : run) {
      point.turned_rad -= last;
    }
  }
}

/// Runs whose points stand closer than those of a leaf's outline: creases put small kinks between them.
std::vector<fit::Run> runs_about(const leaf::Subpath& path) {
  constexpr double closer = 4;
  std::vector<fit::Run> runs = fit::runs_of(leaf::scaled({path.start, path.segments}, closer), 0, true);
  for (fit::Run& run : runs) {
    for (Point& point : run.wanted) {
      point = {point.x / closer, point.z / closer};
    }
  }
  return runs;
}

std::optional<design::Refusal> beyond_sides(const DrawnPolar& drawn) {
  const double last = drawn.runs.back().back().turned_rad;
  for (const auto& run : drawn.runs) {
    for (const Polar& point : run) {
      const double over = std::max(-point.turned_rad, point.turned_rad - last);
      if (over * point.distance_mm > tolerance::closed_mm) {
        return refused(fmt::format(
            "The outline runs {} beyond its own {} side, seen from the centre; draw it so that it begins and ends at "
            "the sides of the fan.",
            leaf::in_mm(over * point.distance_mm), point.turned_rad < 0 ? "first" : "last"));
      }
    }
  }
  return std::nullopt;
}

} // namespace

std::variant<DrawnPolar, design::Refusal> about_centre(const leaf::Subpath& path) {
  const std::vector<fit::Run> runs = runs_about(path);
  if (runs.empty()) {
    return refused("The outline is a single point; draw it from one side of the fan to the other.");
  }
  for (const fit::Run& run : runs) {
    for (const Point point : run.wanted) {
      if (std::hypot(point.x, point.z) < tolerance::least_length_mm) {
        return refused(fmt::format("The outline comes within {} of the fan's centre at (0, 0), where the pleats are "
                                   "held together; keep it {} away, and draw its outer edge alone.",
                                   leaf::in_mm(tolerance::least_length_mm), leaf::in_mm(tolerance::least_length_mm)));
      }
    }
  }
  DrawnPolar drawn = followed(runs);
  Point side = runs.front().wanted.front();
  const bool meets = distance(side, runs.back().wanted.back()) < tolerance::closed_mm;
  if (drawn.runs.back().back().turned_rad < 0) {
    turn_round(drawn);
    side = runs.back().wanted.back();
  }
  double& last = drawn.runs.back().back().turned_rad;
  if (meets && std::abs(last - 2 * pi) < 0.1) {
    last = 2 * pi;
  }
  drawn.spread_deg = last * 180 / pi;
  drawn.first_side_deg = std::atan2(side.z, side.x) * 180 / pi;
  if (drawn.spread_deg < tolerance::least_spread_deg || drawn.spread_deg > tolerance::most_spread_deg + 1e-9) {
    return refused(fmt::format("The outline turns {:.0f} degrees about the fan's centre at (0, 0), but a fan is spread "
                               "{:g} to {:g}; draw it round the centre from one side to the other.",
                               drawn.spread_deg, tolerance::least_spread_deg, tolerance::most_spread_deg));
  }
  if (auto refusal = beyond_sides(drawn)) {
    return *refusal;
  }
  return drawn;
}

} // namespace fanwright::fan
