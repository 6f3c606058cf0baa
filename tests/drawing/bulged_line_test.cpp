#include "drawing/bulged_line.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <variant>
#include <vector>

using namespace fanwright::drawing;

namespace {

Point middle_of(const Point& a, const Point& b, double share) {
  return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

/// By repeated halving (de Casteljau), not by the polynomial the code under test uses.
Point on_cubic(const Point& from, const Cubic& c, double t) {
  const Point a = middle_of(from, c.control1, t), b = middle_of(c.control1, c.control2, t);
  const Point d = middle_of(c.control2, c.to, t);
  return middle_of(middle_of(a, b, t), middle_of(b, d, t), t);
}

/// Points along a line, arcs walked by turning the chord: independent of circles and their centres.
std::vector<Point> walked(const BulgedLine& line, int per_piece) {
  std::vector<Point> points;
  const std::size_t pieces = line.vertices.size() - (line.closed ? 0 : 1);
  for (std::size_t i = 0; i < pieces; ++i) {
    const Point a = line.vertices[i].at, b = line.vertices[(i + 1) % line.vertices.size()].at;
    const double angle = 4 * std::atan(line.vertices[i].bulge), chord = std::hypot(b.x - a.x, b.y - a.y);
    const double heading = std::atan2(b.y - a.y, b.x - a.x);
    for (int k = 0; k <= per_piece; ++k) {
      const double share = static_cast<double>(k) / per_piece;
      // The part's own chord has length chord * sin(share angle/2) / sin(angle/2), and lags by half of what is left.
      const double part = std::abs(angle) < 1e-12 ? share : std::sin(share * angle / 2) / std::sin(angle / 2);
      const double way = heading - (1 - share) * angle / 2;
      points.push_back({a.x + chord * part * std::cos(way), a.y + chord * part * std::sin(way)});
    }
  }
  return points;
}

double distance_to_segment(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x, dy = b.y - a.y, squared = dx * dx + dy * dy;
  const double share = squared > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / squared, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - share * dx, p.y - a.y - share * dy);
}

/// How far the points of one lie from the other at most; both as dense chains.
double farthest(const std::vector<Point>& points, const std::vector<Point>& chain) {
  double far = 0;
  for (const Point& p : points) {
    double near = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i + 1 < chain.size(); ++i)
      near = std::min(near, distance_to_segment(p, chain[i], chain[i + 1]));
    far = std::max(far, near);
  }
  return far;
}

Point any_point() { return {*rc::gen::inRange(-1000, 1000) / 10.0, *rc::gen::inRange(-1000, 1000) / 10.0}; }

} // namespace

TEST(drawing, a_quarter_circle_is_one_exact_bulge) {
  // Bulge = tan(90 deg / 4) = sqrt(2) - 1; sweep is clockwise as seen.
  const auto lines = bulged_lines({Move{{10, 0}}, Arc{10, 10, 0, false, true, {0, 10}}});
  ASSERT_EQ(lines.size(), 1u);
  ASSERT_EQ(lines[0].vertices.size(), 2u);
  EXPECT_NEAR(lines[0].vertices[0].bulge, std::numbers::sqrt2 - 1, 1e-12);
  EXPECT_FALSE(lines[0].closed);
  const auto back = bulged_lines({Move{{10, 0}}, Arc{10, 10, 0, false, false, {0, 10}}});
  EXPECT_NEAR(back[0].vertices[0].bulge, 1 - std::numbers::sqrt2, 1e-12);
}

TEST(drawing, a_circle_of_two_half_arcs_closes_into_two_vertices) {
  const auto lines =
      bulged_lines({Move{{-5, 0}}, Arc{5, 5, 0, false, true, {5, 0}}, Arc{5, 5, 0, false, true, {-5, 0}}, Close{}});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_TRUE(lines[0].closed);
  ASSERT_EQ(lines[0].vertices.size(), 2u);
  for (const BulgedVertex& vertex : lines[0].vertices)
    EXPECT_NEAR(vertex.bulge, 1, 1e-9); // tan(180 deg / 4)
  const auto box = box_round(lines);
  ASSERT_TRUE(box);
  EXPECT_NEAR(box->low.x, -5, 1e-9);
  EXPECT_NEAR(box->low.y, -5, 1e-9);
  EXPECT_NEAR(box->high.x, 5, 1e-9);
  EXPECT_NEAR(box->high.y, 5, 1e-9);
}

TEST(drawing, nearly_a_full_turn_stays_on_its_circle) {
  // From 0.1 deg below to 0.1 deg above the +x axis the long way round.
  const double a = 0.1 * std::numbers::pi / 180;
  const Point from{20 * std::cos(a), 20 * std::sin(a)}, to{from.x, -from.y};
  const auto lines = bulged_lines({Move{from}, Arc{20, 20, 0, true, true, to}});
  ASSERT_EQ(lines.size(), 1u);
  for (const Point& p : walked(lines[0], 50))
    EXPECT_NEAR(std::hypot(p.x, p.y), 20, 1e-6); // vertices are rounded nowhere; arithmetic alone
}

TEST(drawing, corners_and_closing_lines_are_kept_and_points_left_out) {
  const auto lines = bulged_lines({Move{{1, 1}}, Move{{0, 0}}, Line{{10, 0}}, Line{{10, 0}}, Line{{10, 5}}, Close{},
                                   Line{{-3, 0}}, Move{{7, 7}}, Close{}});
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_TRUE(lines[0].closed);
  EXPECT_EQ(lines[0].vertices.size(), 3u);
  EXPECT_FALSE(lines[1].closed); // goes on from where the closed one began
  EXPECT_EQ(lines[1].vertices[0].at.x, 0);
  EXPECT_EQ(lines[1].vertices[1].at.x, -3);
}

TEST(drawing, a_straight_cubic_is_one_line) {
  const auto lines = bulged_lines({Move{{0, 0}}, Cubic{{10, 10}, {20, 20}, {30, 30}}});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].vertices.size(), 2u);
  EXPECT_EQ(lines[0].vertices[0].bulge, 0);
}

TEST(drawing, a_leafs_curve_takes_few_arcs_and_stays_smooth) {
  const Point from{0, 0};
  const Cubic side{{60, -20}, {80, -120}, {10, -150}};
  const auto lines = bulged_lines({Move{from}, side});
  ASSERT_EQ(lines.size(), 1u);
  const auto& vertices = lines[0].vertices;
  EXPECT_LE(vertices.size(), 40u);
  double heading_before = 0;
  for (std::size_t i = 0; i + 1 < vertices.size(); ++i) {
    const Point a = vertices[i].at, b = vertices[i + 1].at;
    const double chord = std::atan2(b.y - a.y, b.x - a.x), half = 2 * std::atan(vertices[i].bulge);
    const double turn = i == 0 ? 0 : std::remainder(chord - half - heading_before, 2 * std::numbers::pi);
    EXPECT_NEAR(turn, 0, 1e-6) << i;
    heading_before = chord + half;
  }
}

TEST(drawing, odd_numbers_end) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), huge = 1e300;
  bulged_lines({Move{{0, 0}}, Cubic{{nan, 0}, {1, nan}, {2, 2}}});
  bulged_lines({Move{{0, 0}}, Cubic{{huge, -huge}, {-huge, huge}, {huge, huge}}});
  bulged_lines({Move{{0, 0}}, Arc{1e-300, 1, nan, true, true, {huge, 1}}});
  bulged_lines({Line{{1, 1}}, Close{}});
  EXPECT_TRUE(bulged_lines({}).empty());
  EXPECT_FALSE(box_round({}));
}

RC_GTEST_PROP(drawing, a_cubic_and_its_arcs_lie_within_the_tolerance, ()) {
  const Point from = any_point();
  const Cubic cubic{any_point(), any_point(), any_point()};
  const auto lines = bulged_lines({Move{from}, cubic});
  std::vector<Point> curve;
  for (int i = 0; i <= 4000; ++i)
    curve.push_back(on_cubic(from, cubic, i / 4000.0));
  if (lines.empty()) {
    for (const Point& p : curve)
      RC_ASSERT(std::hypot(p.x - from.x, p.y - from.y) <= curve_tolerance_mm);
    return;
  }
  // Chains of chords lie within 1e-4 mm of the curves they sample here (up to 500 mm in 4000 steps).
  constexpr double chords = 1e-4;
  const std::vector<Point> arcs = walked(lines[0], 24);
  std::vector<Point> sparse;
  for (std::size_t i = 0; i < curve.size(); i += 7)
    sparse.push_back(curve[i]);
  RC_ASSERT(farthest(sparse, arcs) <= curve_tolerance_mm + chords);
  RC_ASSERT(farthest(walked(lines[0], 5), curve) <= curve_tolerance_mm + chords);
  RC_ASSERT(lines[0].vertices.front().at.x == from.x && lines[0].vertices.front().at.y == from.y);
}

RC_GTEST_PROP(drawing, an_elliptical_arc_and_its_arcs_lie_within_the_tolerance, ()) {
  const Point centre = any_point();
  const double rx = *rc::gen::inRange(10, 1500) / 10.0, ry = *rc::gen::inRange(10, 1500) / 10.0;
  const double turned = *rc::gen::inRange(-180, 180) * std::numbers::pi / 180;
  const double start = *rc::gen::inRange(0, 628) / 100.0;
  const double sweep = *rc::gen::inRange(5, 600) / 100.0 * (*rc::gen::arbitrary<bool>() ? 1 : -1);
  const auto place = [&](double share) {
    const double angle = start + share * sweep, x = rx * std::cos(angle), y = ry * std::sin(angle);
    return Point{centre.x + std::cos(turned) * x - std::sin(turned) * y,
                 centre.y + std::sin(turned) * x + std::cos(turned) * y};
  };
  const Arc arc{rx, ry, turned * 180 / std::numbers::pi, std::abs(sweep) > std::numbers::pi, sweep > 0, place(1)};
  // A half turn leaves it to rounding on which side the arc lies.
  RC_PRE(std::abs(std::abs(sweep) - std::numbers::pi) > 0.01);
  const auto lines = bulged_lines({Move{place(0)}, arc});
  RC_ASSERT(lines.size() == 1u);
  std::vector<Point> curve, sparse;
  for (int i = 0; i <= 4000; ++i) {
    curve.push_back(place(i / 4000.0));
    if (i % 7 == 0)
      sparse.push_back(curve.back());
  }
  // Chains of chords lie within 1e-4 mm of the curves they sample: 150 mm radius, 6 rad in 4000 steps give 0.04 um.
  constexpr double chords = 1e-4;
  RC_ASSERT(farthest(walked(lines[0], 5), curve) <= curve_tolerance_mm + chords);
  RC_ASSERT(farthest(sparse, walked(lines[0], 48)) <= curve_tolerance_mm + 5 * chords);
}
