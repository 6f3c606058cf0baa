// Values worked out apart from this code from the formulas that src/fan/pleats.h states, rounded to the digits given
// here; tolerances are half of the last digit. No published table of pleated fans was found.
#include "fan/pleats.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;

TEST(fan, sixteen_panels_of_10_mm_at_60_mm_spread_to_153_degrees) {
  EXPECT_NEAR(16 * largest_panel_deg(10, 60), 152.97, 0.005);
}

TEST(fan, twenty_four_panels_of_12_5_mm_cannot_close_at_60_mm) {
  EXPECT_NEAR(24 * largest_panel_deg(12.5, 60), 287.0, 0.05);
  EXPECT_GT(least_panels_for_disc(12.5, 60), 24);
}

TEST(fan, least_even_number_of_panels_closes_the_disc) {
  EXPECT_EQ(least_panels_for_disc(10, 60), 38);
  EXPECT_EQ(least_panels_for_disc(12, 60), 32);
}

TEST(fan, relief_at_the_rim_follows_fullness) {
  EXPECT_NEAR(relief_share(1.1), 0.417, 0.0005);
  EXPECT_NEAR(relief_share(1.25), 0.600, 0.0005);
  EXPECT_NEAR(relief_share(1.5), 0.745, 0.0005);
}

TEST(fan, disc_of_48_panels_at_60_mm) {
  const double panel = 360.0 / 48;
  EXPECT_NEAR(2 * 60 * std::sin(panel / 2 * pi / 180), 7.848, 0.0005);
  EXPECT_NEAR(relief_mm(10, 60, panel), 6.197, 0.0005);
  EXPECT_NEAR(crease_span_mm(10, 0, 60, panel), 60.030, 0.0005);
  EXPECT_NEAR(fullness_of_disc(48, 10, 60), 480 / 376.991, 1e-4);
}

TEST(fan, disc_of_60_panels_at_80_mm) {
  const double panel = 360.0 / 60;
  EXPECT_NEAR(std::sqrt(100 - std::pow(relief_mm(10, 80, panel), 2)), 8.374, 0.0005);
  EXPECT_NEAR(relief_mm(10, 80, panel), 5.466, 0.0005);
  EXPECT_NEAR(crease_span_mm(10, 0, 80, panel), 80.032, 0.0005);
}

TEST(fan, packed_paper_takes_its_room_at_the_gathered_end) {
  EXPECT_NEAR(packed_radius_mm(48, 0.23, 360, 1), 1.757, 0.0005);
}

TEST(fan, a_fan_tied_in_the_middle_takes_20_panels) {
  // 18.83 panels, so 19, of which the next even number is 20.
  EXPECT_NEAR(180 / largest_panel_deg(10, 60), 18.83, 0.005);
  EXPECT_EQ(least_panels_tied(10, 120), 20);
}

TEST(fan, diagonals_of_a_panel_come_out_short) {
  // 60.86 mm in the flat; between the opened ends it is 60.54 mm.
  const double panel = 360.0 / 48, rim = relief_mm(10, 60, panel), length = crease_span_mm(10, 0, 60, panel);
  EXPECT_NEAR(std::hypot(10, length), 60.86, 0.005);
  EXPECT_NEAR(std::hypot(60, (10 + rim) / 2), 60.54, 0.01);
  EXPECT_NEAR(diagonal_shortfall_mm(10, length, rim), 60.86 - 60.54, 0.01);
}

TEST(fan, rigid_cone_of_sectors) {
  EXPECT_NEAR(conical_tilt_deg(24, 20).value(), 6.633, 0.0005);
  EXPECT_NEAR(conical_tilt_deg(24, 15.5).value(), 1.958, 0.0005);
  EXPECT_NEAR(conical_tilt_deg(24, 15).value(), 0, 1e-6);
  EXPECT_FALSE(conical_tilt_deg(24, 14.9));
}

RC_GTEST_PROP(fan, creases_of_the_rigid_cone_are_one_sector_apart, ()) {
  const int panels = 2 * *rc::gen::inRange(3, 60);
  const double sector = 360.0 / panels * (1 + *rc::gen::inRange(1, 100) / 100.0);
  const double tilt = conical_tilt_deg(panels, sector).value() * pi / 180;
  // Unit vectors along two neighbouring creases, one tilted up and one down.
  const double step = 2 * pi / panels;
  const std::array a{std::cos(tilt), 0.0, std::sin(tilt)};
  const std::array b{std::cos(tilt) * std::cos(step), std::cos(tilt) * std::sin(step), -std::sin(tilt)};
  const double cosine = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  RC_ASSERT(std::abs(std::acos(cosine) * 180 / pi - sector) < 1e-6);
}

} // namespace
} // namespace fanwright::fan
