#include "paper/droop.h"

#include "paper/paper.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::paper {
namespace {

using Read = DroopReading::Read;

constexpr double degree = std::numbers::pi / 180.0;

Bending read(double overhang_mm, Read kind, double value, double grammage_gsm) {
  auto bending = bending_of({overhang_mm, kind, value}, grammage_gsm);
  EXPECT_TRUE(std::holds_alternative<Bending>(bending)) << std::get<std::string>(bending);
  return std::get<Bending>(bending);
}

std::string refusal(double overhang_mm, Read kind, double value) {
  const auto bending = bending_of({overhang_mm, kind, value}, 160);
  return std::holds_alternative<std::string>(bending) ? std::get<std::string>(bending) : "taken";
}

/// The strip integrated outward from the edge, with a natural curvature: theta' = curl + moment, moment' =
/// -number (1 - s) cos theta, all over the overhang. Another route than the code's, which starts at the tip.
struct Outward {
  double slope = 0, moment = 0, reach = 0, drop = 0;
};

Outward outward(double number, double edge_moment, double curl) {
  constexpr int steps = 4000; // Heun's method: error 1 / steps^2, 6e-8
  Outward at{.moment = edge_moment};
  for (int step = 0; step < steps; ++step) {
    const double h = 1.0 / steps, lever = 1.0 - step * h;
    const double slope = at.slope + h * (curl + at.moment);
    const double moment = at.moment - h * number * lever * std::cos(at.slope);
    at.reach += h / 2 * (std::cos(at.slope) + std::cos(slope));
    at.drop += h / 2 * (std::sin(at.slope) + std::sin(slope));
    const double old_slope = at.slope;
    at.slope += h / 2 * (2 * curl + at.moment + moment);
    at.moment -= h / 2 * number * (lever * std::cos(old_slope) + (lever - h) * std::cos(slope));
  }
  return at;
}

/// Shoots at a tip without moment. `curl` is the natural curvature times the overhang, downward positive.
Outward shot(double number, double curl = 0) {
  double low = 0, high = number; // the moment of the weight at full lever is number / 2
  for (int round = 0; round < 60; ++round) {
    const double middle = (low + high) / 2;
    (outward(number, middle, curl).moment < 0 ? low : high) = middle;
  }
  return outward(number, low, curl);
}

TEST(paper, droop_agrees_with_the_table_of_the_heavy_elastica) {
  // Computed from the exact heavy elastica, clamped level; printed to 1e-3 degree and 1e-5.
  constexpr std::array<std::array<double, 5>, 11> table{{{0.5, 3.573, 0.06231, 0.99778, 4.763},
                                                         {1, 7.100, 0.12347, 0.99125, 9.460},
                                                         {2, 13.857, 0.23851, 0.96689, 18.426},
                                                         {3, 20.033, 0.33965, 0.93151, 26.559},
                                                         {4, 25.531, 0.42516, 0.89011, 33.724},
                                                         {5, 30.358, 0.49591, 0.84666, 39.935},
                                                         {6, 34.574, 0.55392, 0.80373, 45.285},
                                                         {8, 41.487, 0.64063, 0.72442, 53.865},
                                                         {10, 46.851, 0.70020, 0.65635, 60.312},
                                                         {15, 56.031, 0.78604, 0.52957, 70.750},
                                                         {20, 61.786, 0.82988, 0.44523, 76.748}}};
  for (const auto& [number, chord, drop, reach, tip] : table) {
    const Droop form = droop_at(number);
    EXPECT_NEAR(form.number, number, 1e-9 * number);
    EXPECT_NEAR(form.chord_deg, chord, 6e-4) << number; // half a printed digit, and its rounding
    EXPECT_NEAR(form.drop, drop, 6e-6) << number;
    EXPECT_NEAR(form.reach, reach, 6e-6) << number;
    EXPECT_NEAR(form.tip_slope_deg, tip, 6e-4) << number;
  }
}

TEST(paper, droop_agrees_with_the_inverse_table) {
  // Computed from the exact heavy elastica; printed to 6 digits.
  constexpr std::array<std::array<double, 2>, 12> table{{{5, 0.70113},
                                                         {10, 1.42048},
                                                         {15, 2.17752},
                                                         {20, 2.99437},
                                                         {25, 3.89762},
                                                         {30, 4.92094},
                                                         {35, 6.10891},
                                                         {40, 7.52332},
                                                         {41.5, 8.00420},
                                                         {43, 8.51630},
                                                         {45, 9.25381},
                                                         {60, 18.2169}}};
  for (const auto& [chord, number] : table) {
    EXPECT_NEAR(droop_of_chord(chord).number, number, 1e-5 * number) << chord;
  }
}

TEST(paper, half_the_overhang_is_the_bending_length_near_the_angle_of_the_standard) {
  // ASTM D1388 and ISO 9073-7 take c = O / 2 at 41.5 degrees; exactly so at 41.487 (exact heavy elastica).
  EXPECT_NEAR(read(200, Read::chord, 41.487, 160).length_mm, 100, 100 * 1e-5);
  EXPECT_NEAR(read(200, Read::chord, 41.5, 160).length_mm, 100, 100 * 2e-4);
}

TEST(paper, droop_gives_the_stiffness_of_the_worked_examples) {
  // From the exact heavy elastica and w = W g, g = 9.80665 m/s2. Card of 176 g/m2, three overhangs.
  // c = 114 mm: 9.80665e-6 * 176 * 114^3 = 2557 uN m; the chord is that of c = O / 2.
  EXPECT_NEAR(read(228, Read::chord, 41.487, 176).stiffness_mnm, 2.557, 0.001 * 2.557);
  EXPECT_NEAR(read(200, Read::chord, 20, 176).stiffness_mnm, 4.61, 0.001 * 4.61);
  EXPECT_NEAR(read(200, Read::drop, 67.8, 176).stiffness_mnm, 4.61, 0.001 * 4.61);
  EXPECT_NEAR(read(150, Read::chord, 15, 176).stiffness_mnm, 2.68, 0.002 * 2.68); // half the last printed digit
  // ISO 5628: E = 12 Sb / t^3, 2.56 GPa at 0.229 mm.
  EXPECT_NEAR(modulus_from_stiffness(read(228, Read::chord, 41.487, 176).stiffness_mnm, 0.229), 2560, 0.002 * 2560);
}

TEST(paper, droop_and_bending_length_follow_the_standard_in_micronewton_metres) {
  // ASTM D1388 in SI: G[uN m] = 9.80665e-6 W[g/m2] c[mm]^3.
  const Bending bending = read(150, Read::drop, 30, 120);
  EXPECT_NEAR(bending.stiffness_mnm * 1000, 9.80665e-6 * 120 * std::pow(bending.length_mm, 3), 1e-9);
}

TEST(paper, a_small_drop_is_an_eighth_of_the_droop_number) {
  // Beam theory: the tip of a cantilever under its own weight drops w O^4 / 8 B, and slopes w O^3 / 6 B.
  for (const double number : {1e-4, 1e-3, 1e-2}) {
    const Droop form = droop_at(number);
    EXPECT_NEAR(form.drop, number / 8, 1e-5 * number / 8) << number; // next term: about 0.05 number^2
    EXPECT_NEAR(form.tip_slope_deg * degree, number / 6, 1e-5 * number / 6) << number;
  }
}

TEST(paper, droop_agrees_with_shooting_from_the_edge) {
  for (const double number : {0.14, 1.0, 4.0, 9.0, 25.0, 50.0}) {
    const Outward form = shot(number);
    const Droop droop = droop_at(number);
    EXPECT_NEAR(droop.drop, form.drop, 1e-6) << number;
    EXPECT_NEAR(droop.reach, form.reach, 1e-6) << number;
    EXPECT_NEAR(droop.tip_slope_deg * degree, form.slope, 2e-6) << number; // Heun's own error at 50
  }
}

TEST(paper, takes_the_form_that_hangs_where_there_are_several) {
  const Droop form = droop_at(200);
  EXPECT_NEAR(form.number, 200, 1e-6 * 200);
  EXPECT_GT(form.drop, droop_at(100).drop);
  EXPECT_GT(form.tip_slope_deg, 89);
}

TEST(paper, averaging_both_faces_takes_the_curl_out) {
  // A strip of droop number 2 with a radius of curl of 8 overhangs, read on either face.
  constexpr double number = 2, curl = 1.0 / 8.0, overhang = 150, grammage = 160;
  const auto faces = {read(overhang, Read::drop, overhang * shot(number, curl).drop, grammage),
                      read(overhang, Read::drop, overhang * shot(number, -curl).drop, grammage)};
  const MeasuredStiffness mean = mean_of(faces, grammage);
  const double flat = read(overhang, Read::drop, overhang * shot(number).drop, grammage).stiffness_mnm;
  EXPECT_GT(mean.spread, 0.4);
  EXPECT_NEAR(mean.stiffness_mnm, flat, 0.01 * flat); // cancels to the first order of the curl
  EXPECT_GT(mean.readings[1].stiffness_mnm / mean.readings[0].stiffness_mnm, 1.4);
}

TEST(paper, says_how_far_a_reading_can_be_trusted) {
  // 1 degree at 15 degrees is about 7 %, 1 mm in 150 mm is 2 % (derivatives of the exact heavy elastica).
  const DroopReading reading{150, Read::chord, 15};
  EXPECT_NEAR(std::get<Bending>(bending_of(reading, 176, {.ruler_mm = 0})).uncertainty, 0.073, 0.002);
  EXPECT_NEAR(std::get<Bending>(bending_of(reading, 176, {.chord_deg = 0})).uncertainty, 0.020, 1e-9);
  // By beam theory B = w O^4 / 8 y at small drops: four times the overhang's error, once the drop's.
  const Bending small = std::get<Bending>(bending_of({100, Read::drop, 2}, 176, {.ruler_mm = 0.1}));
  EXPECT_NEAR(small.uncertainty, std::hypot(4 * 0.1 / 100, 0.1 / 2), 1e-4);
}

TEST(paper, uncertainty_is_what_an_error_of_the_ruler_does) {
  const double as_read = read(200, Read::drop, 68, 160).stiffness_mnm;
  const double longer = read(200.5, Read::drop, 68, 160).stiffness_mnm;
  const double deeper = read(200, Read::drop, 68.5, 160).stiffness_mnm;
  const double expected = 2 * std::hypot(longer / as_read - 1, deeper / as_read - 1); // half a millimetre, doubled
  EXPECT_NEAR(read(200, Read::drop, 68, 160).uncertainty, expected, 0.01 * expected);
}

TEST(paper, four_readings_halve_the_reading_error_but_not_that_of_the_grammage) {
  const Bending one = read(150, Read::drop, 30, 160);
  const MeasuredStiffness mean = mean_of({one, one, one, one}, 160, {.grammage_share = 0.05});
  EXPECT_NEAR(mean.uncertainty, std::hypot(one.uncertainty / 2, 0.05), 1e-12);
  EXPECT_NEAR(mean.stiffness_mnm, one.stiffness_mnm, 1e-12);
  EXPECT_NEAR(mean.length_mm, one.length_mm, 1e-9);
  EXPECT_EQ(mean.spread, 0);
}

TEST(paper, refuses_a_strip_that_cannot_be_read) {
  EXPECT_NE(refusal(150, Read::drop, 160).find("never drops by more than its overhang"), std::string::npos);
  EXPECT_NE(refusal(150, Read::drop, 1).find("too little to read"), std::string::npos);
  EXPECT_NE(refusal(150, Read::chord, 0.5).find("too little to read"), std::string::npos);
  EXPECT_NE(refusal(150, Read::drop, 140).find("so steep"), std::string::npos);
  EXPECT_NE(refusal(150, Read::chord, 76).find("so steep"), std::string::npos);
  EXPECT_NE(refusal(150, Read::drop, 0).find("does not hang below"), std::string::npos);
  EXPECT_NE(refusal(150, Read::drop, -3).find("does not hang below"), std::string::npos);
  EXPECT_NE(refusal(150, Read::drop, std::nan("")).find("does not hang below"), std::string::npos);
  EXPECT_NE(refusal(19, Read::drop, 5).find("not between 20 and 2000"), std::string::npos);
  EXPECT_NE(refusal(std::nan(""), Read::drop, 5).find("not between 20 and 2000"), std::string::npos);
  EXPECT_EQ(refusal(150, Read::chord, 75), "taken");
  EXPECT_EQ(refusal(150, Read::chord, 1), "taken");
}

RC_GTEST_PROP(paper, a_reading_of_the_predicted_drop_gives_the_stiffness_back, ()) {
  const double number = std::exp(*rc::gen::inRange(-1900, 3900) / 1000.0); // 0.15 to 49: within 1 to 75 degrees
  const double grammage = *rc::gen::inRange(20, 601);
  const double overhang = *rc::gen::inRange(200, 20000) / 10.0;
  const double stiffness = 9.80665e-9 * grammage * std::pow(overhang, 3) / number;
  const Droop form = droop_at(number);
  for (const auto& [kind, value] :
       {std::pair(Read::drop, form.drop * overhang), std::pair(Read::chord, form.chord_deg)}) {
    const auto bending = bending_of({overhang, kind, value}, grammage);
    RC_ASSERT(std::holds_alternative<Bending>(bending));
    RC_ASSERT(std::abs(std::get<Bending>(bending).stiffness_mnm - stiffness) <= 1e-6 * stiffness);
  }
}

RC_GTEST_PROP(paper, a_softer_strip_hangs_lower, ()) {
  const double number = std::exp(*rc::gen::inRange(-9000, 5200) / 1000.0);
  const Droop stiffer = droop_at(number);
  const Droop softer = droop_at(1.01 * number);
  RC_ASSERT(softer.drop > stiffer.drop);
  RC_ASSERT(softer.chord_deg > stiffer.chord_deg);
  RC_ASSERT(softer.tip_slope_deg > stiffer.tip_slope_deg);
  RC_ASSERT(softer.reach < stiffer.reach);
}

RC_GTEST_PROP(paper, the_mean_lies_between_the_readings, ()) {
  const auto drops = *rc::gen::container<std::vector<int>>(4, rc::gen::inRange(50, 1200));
  std::vector<Bending> readings;
  readings.reserve(drops.size());
  for (const int drop : drops) {
    readings.push_back(read(150, Read::drop, drop / 10.0, 120));
  }
  const MeasuredStiffness mean = mean_of(readings, 120);
  const auto [low, high] = std::ranges::minmax_element(readings, {}, &Bending::stiffness_mnm);
  RC_ASSERT(mean.stiffness_mnm >= low->stiffness_mnm * (1 - 1e-12));
  RC_ASSERT(mean.stiffness_mnm <= high->stiffness_mnm * (1 + 1e-12));
}

} // namespace
} // namespace fanwright::paper
