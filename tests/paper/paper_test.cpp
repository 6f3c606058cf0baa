#include "paper/paper.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <string_view>

namespace fanwright::paper {
namespace {

struct NamedSize {
  std::string_view name;
  double width_mm, height_mm;
};

TEST(paper, knows_the_sizes_of_iso_216) {
  // ISO 216:2007, A and B series, mm.
  constexpr std::array<NamedSize, 14> sizes{{{"A0", 841, 1189},
                                             {"A1", 594, 841},
                                             {"A2", 420, 594},
                                             {"A3", 297, 420},
                                             {"A4", 210, 297},
                                             {"A5", 148, 210},
                                             {"A6", 105, 148},
                                             {"B0", 1000, 1414},
                                             {"B1", 707, 1000},
                                             {"B2", 500, 707},
                                             {"B3", 353, 500},
                                             {"B4", 250, 353},
                                             {"B5", 176, 250},
                                             {"B6", 125, 176}}};
  for (const auto& [name, width, height] : sizes) {
    const auto size = sheet_size(name);
    ASSERT_TRUE(size.has_value()) << name;
    EXPECT_EQ(size->width_mm, width) << name;
    EXPECT_EQ(size->height_mm, height) << name;
  }
}

TEST(paper, halves_the_long_side_rounded_down_from_size_to_size) {
  // ISO 216:2007: each size halves the long side of the one before, rounded down to whole mm.
  for (const char series : {'A', 'B'}) {
    for (char number = '0'; number < '6'; ++number) {
      const std::array<char, 2> larger{series, number};
      const std::array<char, 2> smaller{series, static_cast<char>(number + 1)};
      const auto large = sheet_size({larger.data(), 2});
      const auto small = sheet_size({smaller.data(), 2});
      ASSERT_TRUE(large && small);
      EXPECT_EQ(small->width_mm, std::floor(large->height_mm / 2));
      EXPECT_EQ(small->height_mm, large->width_mm);
    }
  }
}

TEST(paper, knows_the_american_sizes) {
  // ASME Y14.1: A 8.5 x 11 in, B 11 x 17 in. Legal and the 12 in craft square are common practice, no source.
  constexpr std::array<NamedSize, 4> sizes{
      {{"letter", 215.9, 279.4}, {"legal", 215.9, 355.6}, {"tabloid", 279.4, 431.8}, {"12x12in", 304.8, 304.8}}};
  for (const auto& [name, width, height] : sizes) {
    const auto size = sheet_size(name);
    ASSERT_TRUE(size.has_value()) << name;
    EXPECT_NEAR(size->width_mm, width, 1e-9) << name; // an inch is exactly 25.4 mm: rounding only
    EXPECT_NEAR(size->height_mm, height, 1e-9) << name;
  }
}

TEST(paper, does_not_guess_an_unknown_sheet) {
  for (const std::string_view name : {"", "a4", "A7", "A44", "Letter", "12x12"}) {
    EXPECT_FALSE(sheet_size(name).has_value()) << name;
  }
}

TEST(paper, turns_the_stiffness_of_tabulating_card_into_its_moduli) {
  // Tabulating card stock manufacturing specification: 161 g/m2, 0.007 in = 0.178 mm, least stiffness 17.0 / 8.0
  // units of TAPPI T 489. One unit is 1.96133 mN at 50 mm; ISO 2493 two-point: Sb = 60 F l^2 / (pi alpha b) with
  // l = 50 mm, b = 38 mm, alpha = 15 degrees, which gives 2.79 / 1.31 mN m and 5.96 / 2.81 GPa.
  constexpr double pi = 3.14159265358979323846;
  constexpr double stiffness_per_unit_mnm = 60.0 * 1.96133 * 50.0 * 50.0 / (pi * 15.0 * 38.0) / 1000.0;
  EXPECT_NEAR(17.0 * stiffness_per_unit_mnm, 2.79, 0.005); // half of the last published digit
  EXPECT_NEAR(8.0 * stiffness_per_unit_mnm, 1.31, 0.005);
  // Published to 10 MPa from the rounded caliper; 0.5 % covers both roundings.
  EXPECT_NEAR(modulus_from_stiffness(17.0 * stiffness_per_unit_mnm, 0.178), 5960, 0.005 * 5960);
  EXPECT_NEAR(modulus_from_stiffness(8.0 * stiffness_per_unit_mnm, 0.178), 2810, 0.005 * 2810);
}

TEST(paper, follows_iso_5628) {
  // ISO 5628: Sb = E t^3 / 12. 0.2 mm and 4500 MPa: 4500 * 0.008 / 12 = 3 mN m.
  EXPECT_NEAR(stiffness_from_modulus(4500, 0.2), 3.0, 1e-12);
  EXPECT_NEAR(modulus_from_stiffness(3.0, 0.2), 4500.0, 1e-9);
}

TEST(paper, doubling_the_caliper_makes_the_sheet_eight_times_stiffer) {
  EXPECT_NEAR(stiffness_from_modulus(5000, 0.4), 8.0 * stiffness_from_modulus(5000, 0.2), 1e-12);
}

TEST(paper, shear_follows_the_rule_for_machine_made_paper) {
  // Paper physics rule of thumb: G = 0.387 sqrt(E1 E2) with sqrt(nu12 nu21) = 0.293; for a carton stock of
  // 7.44 / 3.47 GPa that is 1.966 GPa. 0.387 is 1 / (2 * 1.293) to three digits, hence 0.1 %.
  const Paper carton{.modulus_along_mpa = 7440, .modulus_across_mpa = 3470, .poisson = 0.293};
  EXPECT_NEAR(carton.shear_mpa(), 1966, 0.001 * 1966);
}

TEST(paper, typical_paper_agrees_with_published_nominal_thickness) {
  // United States Government Paper Specification Standards: text A91 105/120/150 g/m2, tabulating card 161 g/m2,
  // index K10 200/255/305 g/m2; nominal thickness, mm.
  constexpr std::array<std::array<double, 2>, 7> nominal{
      {{105, 0.140}, {120, 0.160}, {150, 0.200}, {161, 0.178}, {200, 0.230}, {255, 0.290}, {305, 0.350}}};
  for (const auto& [grammage, caliper] : nominal) {
    EXPECT_NEAR(typical_paper(grammage).caliper_mm, caliper, 1e-12) << grammage;
  }
}

TEST(paper, typical_paper_lies_halfway_between_its_neighbours) {
  const Paper paper = typical_paper(112.5);
  EXPECT_EQ(paper.grammage_gsm, 112.5);
  EXPECT_NEAR(paper.caliper_mm, 0.150, 1e-12);
  EXPECT_NEAR(typical_paper(100).modulus_along_mpa, 4600, 1e-9); // 5000 at 80 g/m2, 4500 at 105 g/m2
}

TEST(paper, typical_paper_keeps_its_bulk_beyond_the_table) {
  EXPECT_NEAR(typical_paper(40).caliper_mm, 0.050, 1e-12);
  EXPECT_NEAR(typical_paper(610).caliper_mm, 0.700, 1e-12);
}

RC_GTEST_PROP(paper, stiffness_and_modulus_are_inverse, ()) {
  const double modulus = *rc::gen::inRange(50, 30000);
  const double caliper = *rc::gen::inRange(20, 1500) / 1000.0;
  const double back = modulus_from_stiffness(stiffness_from_modulus(modulus, caliper), caliper);
  RC_ASSERT(std::abs(back - modulus) <= 1e-12 * modulus); // rounding of six operations
}

RC_GTEST_PROP(paper, typical_paper_is_always_a_sound_paper, ()) {
  const double grammage = *rc::gen::inRange(20, 601);
  const Paper paper = typical_paper(grammage);
  RC_ASSERT(paper.caliper_mm >= 0.02 && paper.caliper_mm <= 1.5);
  RC_ASSERT(paper.modulus_along_mpa > paper.modulus_across_mpa);
  RC_ASSERT(paper.modulus_across_mpa > 1000);
}

} // namespace
} // namespace fanwright::paper
