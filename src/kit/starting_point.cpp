#include "kit/starting_point.h"

#include "leaf/arc.h"
#include "leaf/contour.h"

#include <cmath>
#include <numbers>
#include <utility>

namespace fanwright::kit {

namespace {

using leaf::Point;
using leaf::Segment;

constexpr int samples = 64;        // a segment's distance from the spine has few minima; these part them
constexpr int refinements = 60;    // thirds of a bracket: ends far below a nanometre
constexpr double end_share = 1e-6; // nearer to an end than this share of a segment is the end itself

Point between(const Point& a, const Point& b, double t) { return {a.x + (b.x - a.x) * t, a.z + (b.z - a.z) * t}; }

/// One segment with its beginning.
struct Stretch {
  Point from;
  Segment segment;
};

/// De Casteljau's construction.
std::pair<leaf::Cubic, leaf::Cubic> split(const Point& from, const leaf::Cubic& s, double t) {
  const Point a = between(from, s.control1, t), b = between(s.control1, s.control2, t),
              c = between(s.control2, s.to, t);
  const Point d = between(a, b, t), e = between(b, c, t), middle = between(d, e, t);
  return {{a, d, middle}, {e, c, s.to}};
}

std::pair<leaf::Quadratic, leaf::Quadratic> split(const Point& from, const leaf::Quadratic& s, double t) {
  const Point a = between(from, s.control, t), b = between(s.control, s.to, t);
  return {{a, between(a, b, t)}, {b, s.to}};
}

std::pair<Segment, Segment> split(const Point& from, const leaf::Arc& s, double t) {
  const auto whole = leaf::centred(from, s);
  if (!whole)
    return {leaf::Line{between(from, s.to, t)}, leaf::Line{s.to}};
  leaf::Arc first = s, second = s;
  first.radius_x = second.radius_x = whole->radius_x;
  first.radius_z = second.radius_z = whole->radius_z;
  first.to = whole->at(whole->start_rad + t * whole->turn_rad);
  first.large = std::abs(t * whole->turn_rad) > std::numbers::pi;
  second.large = std::abs((1 - t) * whole->turn_rad) > std::numbers::pi;
  return {first, second};
}

/// Both parts of a stretch cut at the share `t` of its parameter.
std::pair<Segment, Segment> split(const Stretch& stretch, double t) {
  if (const auto* s = std::get_if<leaf::Line>(&stretch.segment))
    return {leaf::Line{between(stretch.from, s->to, t)}, *s};
  if (const auto* s = std::get_if<leaf::Arc>(&stretch.segment))
    return split(stretch.from, *s, t);
  if (const auto* s = std::get_if<leaf::Quadratic>(&stretch.segment)) {
    const auto [first, second] = split(stretch.from, *s, t);
    return {first, second};
  }
  const auto [first, second] = split(stretch.from, std::get<leaf::Cubic>(stretch.segment), t);
  return {first, second};
}

double distance_at(const Stretch& stretch, double t) { return std::abs(leaf::end_of(split(stretch, t).first).x); }

/// Share of the parameter where the stretch comes nearest to the spine.
double nearest_share(const Stretch& stretch) {
  int best = 0;
  for (int i = 1; i <= samples; ++i)
    if (distance_at(stretch, static_cast<double>(i) / samples) <
        distance_at(stretch, static_cast<double>(best) / samples))
      best = i;
  double low = std::max(0, best - 1), high = std::min(samples, best + 1);
  low /= samples, high /= samples;
  for (int i = 0; i < refinements; ++i) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (distance_at(stretch, a) <= distance_at(stretch, b) ? high : low) =
        distance_at(stretch, a) <= distance_at(stretch, b) ? b : a;
  }
  return (low + high) / 2;
}

} // namespace

leaf::Contour begun_nearest_spine(const leaf::Contour& contour) {
  std::vector<Stretch> stretches;
  Point from = contour.start;
  for (const Segment& segment : contour.segments) {
    stretches.push_back({from, segment});
    from = leaf::end_of(segment);
  }
  std::size_t best = 0;
  double best_share = 0, least = std::abs(contour.start.x);
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const double share = nearest_share(stretches[i]), distance = distance_at(stretches[i], share);
    if (distance < least - 1e-9)
      best = i, best_share = share, least = distance;
  }
  if (best_share > 1 - end_share)
    best = (best + 1) % stretches.size(), best_share = 0;
  leaf::Contour begun{stretches[best].from, {}};
  if (best_share < end_share) {
    for (std::size_t i = 0; i < stretches.size(); ++i)
      begun.segments.push_back(stretches[(best + i) % stretches.size()].segment);
    return begun;
  }
  const auto [first, second] = split(stretches[best], best_share);
  begun.start = leaf::end_of(first);
  begun.segments.push_back(second);
  for (std::size_t i = 1; i < stretches.size(); ++i)
    begun.segments.push_back(stretches[(best + i) % stretches.size()].segment);
  begun.segments.push_back(first);
  return begun;
}

} // namespace fanwright::kit
