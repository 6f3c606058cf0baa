#include "fit/smooth.h"
#include "leaf/contour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fit {
namespace {

TEST(fit, a_quarter_circle_becomes_few_cubics_within_tolerance) {
  std::vector<leaf::Point> points;
  for (int k = 0; k <= 60; ++k) {
    const double angle = std::numbers::pi / 2 * k / 60;
    points.push_back({50 * std::cos(angle), 50 * std::sin(angle)});
  }
  const auto segments = smooth(points, 0.03);
  EXPECT_LE(segments.size(), 2u);
  const leaf::Ring ring = leaf::flatten({points.front(), segments}, 0.001);
  for (const leaf::Point& p : ring) {
    EXPECT_NEAR(std::hypot(p.x, p.z), 50, 0.04);
  }
}

TEST(fit, points_on_a_line_stay_a_line) {
  const auto segments = smooth({{0, 0}, {1, 2}, {2, 4}, {5, 10}}, 0.03);
  ASSERT_EQ(segments.size(), 1u);
  EXPECT_TRUE(std::holds_alternative<leaf::Line>(segments[0]));
}

TEST(fit, curves_pass_the_points_and_end_where_they_end) {
  std::vector<leaf::Point> points;
  for (int k = 0; k <= 100; ++k) {
    const double t = k / 100.0;
    points.push_back({60 * t, 12 * std::sin(9 * t) + 4 * std::cos(17 * t)});
  }
  const double tolerance = 0.03;
  const auto segments = smooth(points, tolerance);
  EXPECT_EQ(leaf::end_of(segments.back()).x, points.back().x);
  EXPECT_EQ(leaf::end_of(segments.back()).z, points.back().z);
  const leaf::Ring ring = leaf::flatten({points.front(), segments}, 0.001);
  for (const leaf::Point& p : points) {
    double least = 1e300;
    for (std::size_t k = 0; k + 1 < ring.size(); ++k) {
      const double dx = ring[k + 1].x - ring[k].x;
      const double dz = ring[k + 1].z - ring[k].z;
      const double t = std::clamp(((p.x - ring[k].x) * dx + (p.z - ring[k].z) * dz) / (dx * dx + dz * dz), 0.0, 1.0);
      least = std::min(least, std::hypot(ring[k].x + t * dx - p.x, ring[k].z + t * dz - p.z));
    }
    EXPECT_LT(least, tolerance + 0.002);
  }
}

TEST(fit, no_handle_nearly_vanishes) {
  // Points that stand closer and closer towards an end, as they do on their way to the spine, and waver a little.
  double shortest = 1;
  for (int wave = 0; wave < 20; ++wave) {
    std::vector<leaf::Point> points;
    for (int k = 0; k <= 30; ++k) {
      const double t = 1 - k / 30.0;
      points.push_back({12 * t * t * t, 0.02 * std::sin(0.7 * wave + k) - 3 * t * t * t});
    }
    leaf::Point from = points.front();
    for (const leaf::Segment& segment : smooth(points, 0.03)) {
      if (const auto* cubic = std::get_if<leaf::Cubic>(&segment)) {
        const double chord = std::hypot(cubic->to.x - from.x, cubic->to.z - from.z);
        shortest = std::min({shortest, std::hypot(cubic->control1.x - from.x, cubic->control1.z - from.z) / chord,
                             std::hypot(cubic->control2.x - cubic->to.x, cubic->control2.z - cubic->to.z) / chord});
      }
      from = leaf::end_of(segment);
    }
  }
  EXPECT_GE(shortest, 0.0999); // a tenth: what is shorter turns within itself
}

TEST(fit, handles_never_pass_each_other) {
  // Points that waver by less than what they are followed within.
  std::vector<leaf::Point> points;
  for (int k = 0; k <= 80; ++k)
    points.push_back({1.5 * k, 0.08 * std::sin(0.9 * k) + 0.05 * std::cos(2.3 * k) + 0.003 * k * k});
  leaf::Point from = points.front();
  for (const leaf::Segment& segment : smooth(points, 0.03)) {
    const auto* cubic = std::get_if<leaf::Cubic>(&segment);
    ASSERT_NE(cubic, nullptr);
    const double x = cubic->to.x - from.x, z = cubic->to.z - from.z;
    const auto along = [&](leaf::Point p) { return ((p.x - from.x) * x + (p.z - from.z) * z) / std::hypot(x, z); };
    EXPECT_LT(along(cubic->control1), along(cubic->control2));
    from = cubic->to;
  }
}

TEST(fit, two_points_are_joined_straight) {
  const auto segments = smooth({{0, 0}, {3, 4}}, 0.03);
  ASSERT_EQ(segments.size(), 1u);
  EXPECT_TRUE(std::holds_alternative<leaf::Line>(segments[0]));
}

} // namespace
} // namespace fanwright::fit
