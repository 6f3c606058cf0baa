#include "leaf/edge_finder.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::leaf {
namespace {

/// A star with `count` corners round (20, 30), drawn at random.
Ring drawn_star() {
  const int count = *rc::gen::inRange(3, 40);
  Ring star;
  for (int k = 0; k < count; ++k) {
    const double reach = 5 + 0.01 * *rc::gen::inRange(0, 1500), angle = 2 * std::numbers::pi * k / count;
    star.push_back({20 + reach * std::cos(angle), 30 + reach * std::sin(angle)});
  }
  return star;
}

Point drawn_point() { return {0.01 * *rc::gen::inRange(-1000, 5000), 0.01 * *rc::gen::inRange(-1000, 7000)}; }

double distance_to(const Ring& ring, Point p) {
  double least = 1e9;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Point a = ring[k], b = ring[(k + 1) % ring.size()];
    constexpr int steps = 400;
    for (int s = 0; s <= steps; ++s) {
      const double t = static_cast<double>(s) / steps;
      least = std::min(least, std::hypot(a.x + t * (b.x - a.x) - p.x, a.z + t * (b.z - a.z) - p.z));
    }
  }
  return least;
}

/// Turns of the outline round a point.
double winding(const Ring& ring, Point p) {
  double turned = 0;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Point a = ring[k], b = ring[(k + 1) % ring.size()];
    turned += std::remainder(std::atan2(b.z - p.z, b.x - p.x) - std::atan2(a.z - p.z, a.x - p.x), 2 * std::numbers::pi);
  }
  return turned / (2 * std::numbers::pi);
}

RC_GTEST_PROP(edge_finder, finds_the_nearest_place_on_the_edge, ()) {
  const Ring star = drawn_star();
  const Point point = drawn_point();
  const Point nearest = EdgeFinder(star).nearest(point);
  const double away = std::hypot(nearest.x - point.x, nearest.z - point.z);
  const double sampled = distance_to(star, point);
  RC_ASSERT(away <= sampled + 1e-9);
  RC_ASSERT(away >= sampled - 0.06); // sides are at most 40 mm, their samples 0.1 mm apart
  RC_ASSERT(distance_to(star, nearest) < 0.06);
}

RC_GTEST_PROP(edge_finder, tells_paper_as_the_turns_of_the_outline_do, ()) {
  const Ring star = drawn_star();
  const Point point = drawn_point();
  RC_PRE(distance_to(star, point) > 0.1);
  RC_ASSERT(EdgeFinder(star).holds(point) == (std::abs(winding(star, point)) > 0.5));
}

} // namespace
} // namespace fanwright::leaf
