#include "leaf/outline.h"

#include "leaf/contour.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::leaf {
namespace {

using std::numbers::pi;

double length(const Ring& ring) {
  double total = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i], b = ring[(i + 1) % ring.size()];
    total += std::hypot(b.x - a.x, b.z - a.z);
  }
  return total;
}

Contour ellipse(double rx, double rz, double rotation_deg) {
  const double c = std::cos(rotation_deg * pi / 180), s = std::sin(rotation_deg * pi / 180);
  const Point right{rx * c, rx * s}, left{-rx * c, -rx * s};
  return {right, {Arc{rx, rz, rotation_deg, false, true, left}, Arc{rx, rz, rotation_deg, false, true, right}}};
}

double distance(Point p, Point a, Point b) {
  const double dx = b.x - a.x, dz = b.z - a.z, squared = dx * dx + dz * dz;
  const double t = squared == 0 ? 0 : std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / squared, 0.0, 1.0);
  return std::hypot(p.x - a.x - t * dx, p.z - a.z - t * dz);
}

double distance(Point p, const Ring& ring) {
  double least = distance(p, ring.back(), ring.front());
  for (std::size_t i = 0; i + 1 < ring.size(); ++i)
    least = std::min(least, distance(p, ring[i], ring[i + 1]));
  return least;
}

rc::Gen<Point> places() {
  return rc::gen::map(rc::gen::pair(rc::gen::inRange(-2000, 2000), rc::gen::inRange(-2000, 2000)),
                      [](const std::pair<int, int>& p) {
                        return Point{p.first / 10.0, p.second / 10.0};
                      });
}

rc::Gen<Contour> contours() {
  return rc::gen::exec([] {
    const auto flag = [] { return *rc::gen::arbitrary<bool>(); };
    Contour contour{*places(), {}};
    contour.segments.push_back(Cubic{*places(), *places(), *places()});
    contour.segments.push_back(Quadratic{*places(), *places()});
    const double rx = *rc::gen::inRange(1, 900) / 10.0, rz = *rc::gen::inRange(1, 900) / 10.0;
    contour.segments.push_back(
        Arc{rx, rz, static_cast<double>(*rc::gen::inRange(-180, 180)), flag(), flag(), *places()});
    contour.segments.push_back(Line{contour.start});
    return contour;
  });
}

TEST(leaf, an_arc_circle_has_the_circles_area_and_length) {
  const Contour circle = ellipse(50, 50, 0);
  EXPECT_NEAR(signed_area(circle), pi * 50 * 50, 1e-9);
  // A chord error e on radius r shortens the length by about 2 e / (3 r) of it, the area by 4 e / (3 r).
  const double e = 0.02;
  const Ring ring = flatten(circle, e);
  EXPECT_LE(length(ring), 2 * pi * 50);
  EXPECT_GE(length(ring), 2 * pi * 50 * (1 - 2 * e / (3 * 50)));
  EXPECT_LE(signed_area(ring), pi * 50 * 50);
  EXPECT_GE(signed_area(ring), pi * 50 * 50 * (1 - 4 * e / (3 * 50)));
}

TEST(leaf, a_circle_takes_the_fewest_chords_of_its_tolerance) {
  // e = r (1 - cos(a / 2)): r 50, e 0.05 gives a = 5.13 degrees, 71 chords; here in two halves of 36.
  EXPECT_EQ(flatten(ellipse(50, 50, 0), 0.05).size(), 72u);
}

TEST(leaf, an_ellipse_has_the_perimeter_of_the_elliptic_integral) {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 17.1: E(m = 0.75) = 1.2110560276 (from memory;
  // std::comp_ellint_2 agrees below). Perimeter 4 a E(1 - b^2/a^2).
  EXPECT_NEAR(std::comp_ellint_2(std::sqrt(0.75)), 1.2110560276, 1e-10);
  for (const double rotation : {0.0, 33.0, 90.0, -120.0}) {
    EXPECT_NEAR(length(flatten(ellipse(40, 20, rotation), 1e-6)), 4 * 40 * 1.2110560276, 1e-5) << rotation;
    EXPECT_NEAR(signed_area(ellipse(40, 20, rotation)), pi * 40 * 20, 1e-9) << rotation;
  }
}

TEST(leaf, the_cubic_quarter_circle_has_its_known_error) {
  // The cubic with kappa = 4 (sqrt 2 - 1) / 3 touches the unit circle and lies outside it by at most 2.7253e-4
  // (well-known value, from memory).
  const double k = 4 * (std::numbers::sqrt2 - 1) / 3;
  const Contour quarter{{1, 0}, {Cubic{{1, k}, {k, 1}, {0, 1}}, Line{{0, 0}}, Line{{1, 0}}}};
  double largest = 0, least = 2;
  for (const Point p : flatten(quarter, 1e-9))
    if (!(p == Point{0, 0})) {
      largest = std::max(largest, std::hypot(p.x, p.z));
      least = std::min(least, std::hypot(p.x, p.z));
    }
  EXPECT_NEAR(largest - 1, 2.7253e-4, 1e-8);
  EXPECT_NEAR(least, 1, 1e-12);
}

TEST(leaf, a_parabola_has_two_thirds_of_its_box) {
  // Archimedes: the segment under the parabola is two thirds of its box (Quadrature of the Parabola).
  const Contour parabola{{0, 0}, {Quadratic{{30, 80}, {60, 0}}, Line{{0, 0}}}};
  EXPECT_NEAR(signed_area(parabola), -2.0 / 3 * 60 * 40, 1e-9);
  EXPECT_NEAR(bounds(parabola).top, 40, 1e-12);
}

TEST(leaf, sweep_turns_from_x_to_z) {
  const Contour bulge{{0, 0}, {Arc{10, 10, 0, false, true, {0, 20}}, Line{{0, 0}}}};
  EXPECT_NEAR(bounds(bulge).right, 10, 1e-12); // counter-clockwise round (0, 10), so by the right
  EXPECT_NEAR(signed_area(bulge), pi * 50, 1e-9);
}

TEST(leaf, radii_that_cannot_reach_are_enlarged) {
  // SVG 2, section 9.5.1: scaled up until there is exactly one solution, a half ellipse.
  const Contour half{{0, 0}, {Arc{1, 1, 0, false, true, {0, 20}}, Line{{0, 0}}}};
  EXPECT_NEAR(signed_area(half), pi * 50, 1e-6);
}

TEST(leaf, flatten_keeps_segment_ends_and_repeats_no_point) {
  const Contour contour{{0, 0}, {Line{{7, 0}}, Line{{7, 0}}, Quadratic{{9, 3}, {7.123456789, 8}}, Line{{0, 0}}}};
  const Ring ring = flatten(contour, 0.02);
  EXPECT_EQ(ring.front(), (Point{0, 0}));
  EXPECT_EQ(ring.back(), (Point{7.123456789, 8}));
  EXPECT_EQ(std::count(ring.begin(), ring.end(), Point{7, 0}), 1);
}

RC_GTEST_PROP(leaf, flatten_stays_within_its_tolerance, ()) {
  const Contour contour = *contours();
  const double tolerance = *rc::gen::element(0.02, 0.2, 2.0);
  const Ring coarse = flatten(contour, tolerance);
  RC_ASSERT(static_cast<double>(coarse.size()) <= flattened_size(contour, tolerance) + 1);
  const Ring fine = flatten(contour, tolerance / 50);
  for (std::size_t i = 0; i < fine.size(); i += 1 + fine.size() / 500)
    RC_ASSERT(distance(fine[i], coarse) <= tolerance * (1 + 1e-6));
}

RC_GTEST_PROP(leaf, area_and_bounds_agree_with_a_fine_polygon, ()) {
  const Contour contour = *contours();
  const Ring ring = flatten(contour, 1e-4);
  RC_ASSERT(std::abs(signed_area(contour) - signed_area(ring)) <= 1e-4 * length(ring));
  const Box exact = bounds(contour), polygon = bounds(ring);
  for (const double off : {polygon.left - exact.left, exact.right - polygon.right, polygon.bottom - exact.bottom,
                           exact.top - polygon.top}) {
    RC_ASSERT(off > -1e-9);
    RC_ASSERT(off < 1.001e-4);
  }
}

RC_GTEST_PROP(leaf, area_grows_with_the_square_of_the_scale, ()) {
  const Contour contour = *contours();
  const double factor = *rc::gen::inRange(1, 100) / 10.0;
  const double area = signed_area(contour) * factor * factor;
  RC_ASSERT(std::abs(signed_area(scaled(contour, factor)) - area) <= 1e-6 * factor * factor);
}

RC_GTEST_PROP(leaf, reversing_and_mirroring_turn_the_area_round, ()) {
  const Contour contour = *contours();
  const double area = signed_area(contour);
  RC_ASSERT(std::abs(signed_area(reversed(contour)) + area) <= 1e-6);
  RC_ASSERT(std::abs(signed_area(mirrored(contour)) + area) <= 1e-6);
  const Box box = bounds(contour), mirror = bounds(mirrored(contour));
  RC_ASSERT(std::abs(mirror.left + box.right) <= 1e-9);
  RC_ASSERT(std::abs(mirror.top - box.top) <= 1e-9);
}

} // namespace
} // namespace fanwright::leaf
