#include "fan/pleats.h"
#include "fan/random_fans.h"
#include "fan/spread.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;

/// Seed of the 300 fans.
constexpr unsigned seed = 8;

const std::vector<Made>& fans() {
  static const std::vector<Made> all = random_fans(300, seed);
  return all;
}

TEST(spread, ends_of_creases_are_those_of_the_closed_formulas) {
  // The disc of 48 panels of 10 mm, R 60: relief 6.197 at the rim, see pleats_test.cpp. Its crease is an arc here,
  // longer than the straight line of 60.030 by 8 s^2 / 3 L = 0.01 mm at a bow s of 0.55 mm.
  const double length = crease_span_mm(10, 0, 60, 7.5) + 0.0135;
  const Spread spread({10, 48, length, 0}, 360);
  EXPECT_NEAR(spread.outer_radius_mm(), 60, 0.002);
  EXPECT_NEAR(spread.relief_at(length), 6.197, 0.002);
  EXPECT_NEAR(spread.relief_at(0), 10, 1e-9);
  EXPECT_NEAR(spread.bow_mm(), 0.55, 0.03);
}

TEST(spread, largest_spread_is_where_panels_lie_flat_at_the_rim) {
  const Pleats pleats{10, 16, 60, 0};
  const double widest = largest_spread_deg(pleats);
  const Spread spread(pleats, widest);
  EXPECT_NEAR(spread.relief_at(60), 0, 0.01);
  EXPECT_NEAR(widest, 16 * largest_panel_deg(10, spread.outer_radius_mm()), 0.01);
}

/// Independent of the closed form: pairs of points on two neighbouring creases, each pair found from the one before by
/// Newton's method on two lengths alone, the step along the crease and the width of the panel.
std::vector<std::array<double, 2>> stepped_crease(const Spread& spread, int steps) {
  const Pleats& p = spread.pleats();
  const double step = p.length_mm / steps, half_sine = std::sin(spread.panel_deg() * pi / 360);
  double r = p.inner_radius_mm, z = std::sqrt(p.depth_mm * p.depth_mm / 4 - r * r * half_sine * half_sine);
  std::vector<std::array<double, 2>> places{{r, z}};
  for (int k = 0; k < steps; ++k) {
    double r1 = r + step, z1 = z;
    for (int iteration = 0; iteration < 50; ++iteration) {
      const double f = (r1 - r) * (r1 - r) + (z1 - z) * (z1 - z) - step * step;
      const double g = 4 * r1 * r1 * half_sine * half_sine + 4 * z1 * z1 - p.depth_mm * p.depth_mm;
      const double fr = 2 * (r1 - r), fz = 2 * (z1 - z), gr = 8 * r1 * half_sine * half_sine, gz = 8 * z1;
      const double det = fr * gz - fz * gr;
      r1 -= (f * gz - fz * g) / det;
      z1 -= (fr * g - f * gr) / det;
    }
    r = r1, z = z1;
    places.push_back({r, z});
  }
  return places;
}

TEST(spread, three_hundred_fans_agree_with_creases_built_from_lengths_alone) {
  for (const Made& made : fans()) {
    const Spread& spread = made.spread;
    const auto places = stepped_crease(spread, 200);
    for (std::size_t k = 0; k < places.size(); k += 20) {
      const double v = spread.pleats().length_mm * static_cast<double>(k) / 200;
      // Chords of 1/200 of the crease miss its arc by less than this share of its length.
      ASSERT_NEAR(spread.radius_at(v), places[k][0], 1e-4 * spread.pleats().length_mm);
      ASSERT_NEAR(spread.relief_at(v) / 2, places[k][1], 1e-3 * spread.pleats().length_mm);
    }
  }
}

TEST(spread, three_hundred_fans_keep_the_lengths_of_creases_and_the_widths_of_panels) {
  for (const Made& made : fans()) {
    const Spread& spread = made.spread;
    const Pleats& p = spread.pleats();
    for (const int crease : {0, 1, p.panels / 2, p.panels}) {
      double length = 0;
      Point3 before = spread.crease(crease, 0);
      for (int k = 1; k <= 400; ++k) {
        const Point3 here = spread.crease(crease, p.length_mm * k / 400);
        length += distance(before, here);
        before = here;
      }
      ASSERT_NEAR(length, p.length_mm, 1e-4 * p.length_mm);
    }
    for (const double share : {0.0, 0.3, 0.7, 1.0}) {
      const double v = share * p.length_mm;
      ASSERT_NEAR(distance(spread.crease(2, v), spread.crease(3, v)), p.depth_mm, 1e-9);
    }
  }
}

/// Largest principal stretch of a small flat square round a point, from places alone.
double stretch_at(const Spread& spread, leaf::Point flat) {
  const double h = 1e-4;
  const auto slope = [&](double x, double z) {
    const Point3 d =
        minus(spread.place({flat.x + h * x, flat.z + h * z}), spread.place({flat.x - h * x, flat.z - h * z}));
    return Point3{d[0] / (2 * h), d[1] / (2 * h), d[2] / (2 * h)};
  };
  const Point3 u = slope(1, 0), v = slope(0, 1);
  const double a = dot(u, u), b = dot(u, v), c = dot(v, v);
  return std::sqrt((a + c) / 2 + std::hypot((a - c) / 2, b)) - 1;
}

TEST(spread, no_panel_of_three_hundred_fans_is_stretched_beyond_0_3_percent) {
  for (const Made& made : fans()) {
    const Spread& spread = made.spread;
    const Pleats& p = spread.pleats();
    double mean_loss = 0;
    for (int k = 1; k <= 100; ++k) {
      const double v = p.length_mm * (k - 0.5) / 100;
      for (const double share : {0.02, 0.4}) {
        ASSERT_LE(stretch_at(spread, {(4 + share) * p.depth_mm, v}), 0.003);
      }
      const double h = 1e-3;
      mean_loss +=
          1 - distance(spread.place({4.5 * p.depth_mm, v + h}), spread.place({4.5 * p.depth_mm, v - h})) / (2 * h);
    }
    // What the middle of a panel lacks; two thirds of it stretch the creases once forces balance.
    const double stretched = 2.0 / 3 * mean_loss / 100;
    ASSERT_LE(stretched, 0.0032);
    ASSERT_NEAR(stretched, spread.stretch(), 0.05 * spread.stretch() + 5e-5);
  }
}

/// Do two triangles cross? By the edges of each through the inside of the other.
bool crosses(const std::array<Point3, 3>& a, const std::array<Point3, 3>& b) {
  const auto edge_through = [](const Point3& from, const Point3& to, const std::array<Point3, 3>& t) {
    const Point3 ray = minus(to, from), e1 = minus(t[1], t[0]), e2 = minus(t[2], t[0]), h = cross(ray, e2);
    const double det = dot(e1, h);
    if (std::abs(det) < 1e-9 * std::sqrt(dot(ray, ray) * dot(e1, e1) * dot(e2, e2))) {
      return false;
    }
    const Point3 s = minus(from, t[0]), q = cross(s, e1);
    const double u = dot(s, h) / det, v = dot(ray, q) / det, along = dot(e2, q) / det;
    const double inside = 1e-6;
    return u > inside && v > inside && u + v < 1 - inside && along > inside && along < 1 - inside;
  };
  for (int k = 0; k < 3; ++k) {
    if (edge_through(a[k], a[(k + 1) % 3], b) || edge_through(b[k], b[(k + 1) % 3], a)) {
      return true;
    }
  }
  return false;
}

std::vector<std::array<Point3, 3>> triangles(const Spread& spread, int panel) {
  const Pleats& p = spread.pleats();
  constexpr int rows = 4;
  std::vector<std::array<Point3, 3>> all;
  for (int row = 0; row < rows; ++row) {
    const double v0 = p.length_mm * row / rows, v1 = p.length_mm * (row + 1) / rows;
    const Point3 a = spread.crease(panel, v0), b = spread.crease(panel + 1, v0), c = spread.crease(panel + 1, v1),
                 d = spread.crease(panel, v1);
    all.push_back({a, b, c});
    all.push_back({a, c, d});
  }
  return all;
}

TEST(spread, no_two_panels_of_three_hundred_fans_cross) {
  for (const Made& made : fans()) {
    const Spread& spread = made.spread;
    // A fan looks alike from panel 1 and from panel 2, so that these two against all tell of all pairs.
    for (const int first : {0, 1}) {
      const auto own = triangles(spread, first);
      for (int other = first + 1; other < spread.pleats().panels; ++other) {
        for (const auto& b : triangles(spread, other)) {
          for (const auto& a : own) {
            ASSERT_FALSE(crosses(a, b)) << "panels " << first << " and " << other;
          }
        }
      }
    }
  }
}

TEST(spread, two_panels_pushed_into_each_other_are_found_to_cross) {
  const auto a = std::array<Point3, 3>{{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}};
  const auto b = std::array<Point3, 3>{{{0.2, 0.2, -1}, {0.2, 0.2, 1}, {2, 2, 0}}};
  EXPECT_TRUE(crosses(a, b));
}

TEST(spread, a_place_seen_from_the_front_leads_back_to_the_flat_strip) {
  for (const Made& made : fans()) {
    const Spread& spread = made.spread;
    const Pleats& p = spread.pleats();
    for (const double share : {0.013, 0.41, 0.66, 0.97}) {
      const leaf::Point flat{share * p.panels * p.depth_mm, (1 - share) * p.length_mm};
      const Point3 place = spread.place(flat);
      double turned = spread.first_side_deg() * pi / 180 - std::atan2(place[1], place[0]);
      turned -= 2 * pi * std::floor(turned / (2 * pi));
      const auto back = spread.flat(std::hypot(place[0], place[1]), turned);
      ASSERT_TRUE(back);
      ASSERT_NEAR(back->x, flat.x, 1e-6);
      ASSERT_NEAR(back->z, flat.z, 1e-6);
    }
  }
}

} // namespace
} // namespace fanwright::fan
