#include "leaf/auto_rows.h"

#include "designs.h"

#include "leaf/contour.h"
#include "leaf/region.h"
#include "leaf/row_heights.h"
#include "leaf/strip.h"

#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::leaf {
namespace {

using design::AutoRows;
using design::Look;
using design::Side;

/// A design of one size whose rows place themselves.
design::Design placed(const std::string& path, int leaves, Look look = Look::usual) {
  auto design = design_of(path, AutoRows{look, Side::inside, {}, {}, {}});
  design.sizes[0].leaves = leaves;
  return design;
}

double wedge(const design::Design& design) {
  return design.sizes[0].opening_deg * std::numbers::pi / 180 / (2.0 * design.sizes[0].leaves);
}

/// The largest lock ratio q = beta x1 / s of the gaps, x1 the outer end of the shorter row.
double lock_of(const Leaf& leaf, double wedge_rad) {
  double worst = 0;
  for (std::size_t i = 1; i < leaf.rows.size(); ++i) {
    const GlueRow &a = leaf.rows[i - 1], &b = leaf.rows[i];
    worst = std::max(worst, wedge_rad * std::min(a.to.x, b.to.x) / (b.from.z - a.from.z - a.width_mm));
  }
  return worst;
}

double nearest_row(const Leaf& leaf, double z) {
  double least = 1e300;
  for (const GlueRow& row : leaf.rows)
    least = std::min(least, std::abs(row.from.z - z));
  return least;
}

/// A tree of overhanging tiers: each tip at (x, z) hangs below the neck above which it begins.
const std::string tiers = "M 0 0 H 16 V 30 L 70 24 C 68 44 30 56 26 90 L 56 84 C 54 104 20 116 16 150 L 42 144 "
                          "C 40 164 10 170 0 200";

TEST(leaf, placed_rows_begin_and_end_inside_at_foot_and_top_and_alternate) {
  const Leaf leaf = built(placed(rectangle, 46));
  ASSERT_GE(leaf.rows.size(), 5u);
  EXPECT_EQ(leaf.rows.size() % 2, 1u);
  // The bead of 0.6 mm: 2.8 mm pressed and 0.5 for the hand make 3.5 mm; half of it and 1 mm make gaps of 3 mm.
  EXPECT_EQ(leaf.rows[0].width_mm, 3.5);
  EXPECT_NEAR(leaf.rows.front().from.z, 3 + 1.75, 1e-9);
  EXPECT_NEAR(leaf.rows.back().from.z, 150 - 3 - 1.75, 1e-9);
  for (std::size_t i = 0; i < leaf.rows.size(); ++i) {
    EXPECT_EQ(leaf.rows[i].side, i % 2 == 0 ? Side::inside : Side::between);
    EXPECT_EQ(leaf.rows[i].from.z, leaf.rows[i].to.z) << "level across the seam";
    EXPECT_NEAR(leaf.rows[i].to.x, 57, 1e-9);
    EXPECT_NEAR(leaf.rows[i].from.x, 3, 1e-9);
  }
}

TEST(leaf, a_row_lies_at_each_tip_of_a_tier) {
  const Leaf leaf = built(placed(tiers, 40));
  // The lowest level strip of 3.5 mm that reaches a tier stands half the edge gap above the corner of the neck below
  // it.
  for (const double corner_z : {30.0, 90.0, 150.0})
    EXPECT_LT(nearest_row(leaf, corner_z + 1.5 + 1.75), 1.0) << corner_z;
}

TEST(leaf, a_point_that_juts_out_upward_or_level_has_a_row_in_it) {
  const Leaf leaf = built(placed("M 0 0 H 30 L 32 50 L 70 60 L 32 66 V 100 L 64 122 L 30 118 V 160 H 0", 40));
  double longest_low = 0, longest_high = 0;
  for (const GlueRow& row : leaf.rows)
    (row.from.z < 90 ? longest_low : longest_high) = std::max(row.from.z < 90 ? longest_low : longest_high, row.to.x);
  // Without them rows would end at 29 mm. A strip 3.5 mm high cannot reach further into these points.
  EXPECT_GT(longest_low, 45);
  EXPECT_GT(longest_high, 45);
}

TEST(leaf, looks_differ_in_the_number_of_rows) {
  const auto count = [](Look look) { return built(placed(rectangle, 36, look)).rows.size(); };
  EXPECT_LT(count(Look::open), count(Look::usual));
  EXPECT_LT(count(Look::usual), count(Look::dense));
}

TEST(leaf, rows_stand_wider_where_the_leaf_is_broad) {
  const Leaf leaf = built(placed("M 0 0 H 90 C 90 60 20 80 20 120 V 240 H 0", 40));
  const auto& rows = leaf.rows;
  const double broad = rows[1].from.z - rows[0].from.z;
  const double slim = rows[rows.size() - 1].from.z - rows[rows.size() - 2].from.z;
  EXPECT_GT(broad, 1.2 * slim);
}

TEST(leaf, thick_card_gets_room_to_bend) {
  design::Design design = placed(rectangle, 46, Look::dense);
  const auto thin = built(design).rows.size();
  design.sizes[0].paper.caliper_mm = 0.6;
  const Leaf leaf = built(design);
  EXPECT_LT(leaf.rows.size(), thin);
  // Surface strain at a clamped strip's end, t k / 2 with k = 6 D / s^2; a tenth over for rounding to whole rows.
  const double s = leaf.rows[1].from.z - leaf.rows[0].from.z - leaf.rows[0].width_mm;
  EXPECT_LT(0.6 * 3 * wedge(design) * 57 / (s * s), 0.04 * 1.1);
}

TEST(leaf, placed_rows_follow_width_and_gaps_that_are_given) {
  auto design = design_of(rectangle, AutoRows{Look::usual, Side::between, 2.0, 5.0, 7.0});
  const Leaf leaf = built(design);
  EXPECT_EQ(leaf.rows.front().side, Side::between);
  EXPECT_EQ(leaf.rows.back().side, Side::between);
  EXPECT_EQ(leaf.rows[1].width_mm, 2);
  EXPECT_EQ(leaf.rows[1].from.x, 5);
  EXPECT_NEAR(leaf.rows[1].to.x, 53, 1e-9);
  EXPECT_NEAR(leaf.rows[0].from.z, 8, 1e-9);
}

TEST(leaf, a_thicker_bead_makes_wider_rows) {
  auto design = placed(rectangle, 46);
  design.making.bead_mm = 1.0; // pressed to 7.85 mm
  const Leaf leaf = built(design);
  EXPECT_EQ(leaf.rows[0].width_mm, 8.5);
}

TEST(leaf, placed_rows_never_run_through_a_cut_out) {
  const Leaf leaf = built(placed(rectangle + " M 20 60 H 40 V 90 H 20 Z", 46));
  for (const GlueRow& row : leaf.rows)
    EXPECT_TRUE(row.to.x <= 17 + 1e-9 || row.from.z < 57 || row.from.z > 93) << row.from.z;
}

TEST(leaf, no_row_lies_in_a_neck_too_narrow_for_it) {
  const Leaf leaf = built(placed("M 0 0 H 40 V 50 L 7 60 L 40 70 V 120 H 0", 46));
  EXPECT_GT(nearest_row(leaf, 60), 2.0);
}

TEST(leaf, a_small_ornament_has_five_rows_all_the_same) {
  EXPECT_EQ(built(placed("M 0 0 H 14 V 44 H 0", 24)).rows.size(), 5u);
}

TEST(leaf, refuses_leaves_too_few_for_any_rows_and_names_a_count_that_opens) {
  design::Design design = placed("M 0 0 H 90 V 60 H 0", 6);
  const auto result = build(design, design.sizes[0]);
  const auto* refusal = std::get_if<design::Refusal>(&result);
  ASSERT_NE(refusal, nullptr);
  EXPECT_EQ(refusal->where, "/leaves");
  const auto at = refusal->sentence.find("at least ");
  ASSERT_NE(at, std::string::npos) << refusal->sentence;
  design.sizes[0].leaves = std::stoi(refusal->sentence.substr(at + 9));
  EXPECT_LE(lock_of(built(design), wedge(design)), 0.7);
}

TEST(leaf, refuses_a_leaf_without_room_for_three_placed_rows) {
  expect_refused(placed("M 0 0 H 40 V 14 H 0", 46), "/rows", "No three glue rows 3.5 mm wide");
  expect_refused(placed("M 0 0 H 8 V 100 H 0", 46), "/rows", "thinner bead");
}

TEST(leaf, the_way_up_takes_every_needed_place_and_an_even_number_of_gaps) {
  std::vector<RowPlace> places;
  for (int k = 0; k <= 60; ++k)
    places.push_back({static_cast<double>(k), 30, 10, 1, true, k == 24});
  const auto rows = row_heights(places, {2, 2, 0.07, 0.7});
  ASSERT_TRUE(rows.has_value());
  EXPECT_EQ(rows->size() % 2, 1u);
  EXPECT_EQ(rows->front(), 0);
  EXPECT_EQ(rows->back(), 60);
  EXPECT_TRUE(std::find(rows->begin(), rows->end(), 24) != rows->end());
}

TEST(leaf, there_is_no_way_up_when_every_gap_would_lock) {
  std::vector<RowPlace> places;
  for (int k = 0; k <= 60; ++k)
    places.push_back({static_cast<double>(k), 500, 10, 1, true, false});
  EXPECT_FALSE(row_heights(places, {2, 2, 0.07, 0.7}).has_value());
  EXPECT_FALSE(row_heights({}, {}).has_value());
}

/// Blobs, tiers with overhang, slim and broad outlines, from one seed each.
std::string any_outline() {
  const auto within = [](int from, int to) { return *rc::gen::resize(100, rc::gen::inRange(from, to)); };
  const int broad = within(15, 100), parts = within(1, 7), overhang = within(0, 12);
  double z = 0;
  std::string path = "M 0 0 H " + std::to_string(within(8, broad + 1));
  for (int i = 0; i < parts; ++i) {
    const double rise = within(20, 70);
    const std::string tip = std::to_string(within(10, broad + 10)), neck = std::to_string(within(8, broad));
    path += " L " + tip + " " + std::to_string(z + 14 - overhang) + " C " + tip + " " + std::to_string(z + rise / 2) +
            " " + neck + " " + std::to_string(z + rise / 2) + " " + neck + " " + std::to_string(z + rise);
    z += rise;
  }
  return path + " L 0 " + std::to_string(z + within(0, 30));
}

RC_GTEST_PROP(leaf, placed_rows_open_lie_on_paper_and_alternate, ()) {
  const auto within = [](int from, int to) { return *rc::gen::resize(100, rc::gen::inRange(from, to)); };
  const auto look = *rc::gen::element(Look::open, Look::usual, Look::dense);
  const design::Design design = placed(any_outline(), within(16, 61), look);
  const auto result = build(design, design.sizes[0]);
  RC_PRE(std::holds_alternative<Leaf>(result));
  const Leaf& leaf = std::get<Leaf>(result);
  RC_CLASSIFY(lock_of(leaf, wedge(design)) > 0.5);
  // Above 0.7 only where three rows, the fewest there can be, allow no less.
  RC_ASSERT(lock_of(leaf, wedge(design)) <= (leaf.rows.size() == 3 ? 0.88 : 0.7) + 1e-9);
  const Region paper(flatten(leaf.outline, flatten_tolerance_mm));
  for (std::size_t i = 0; i < leaf.rows.size(); ++i) {
    const GlueRow& row = leaf.rows[i];
    const auto strip = corners(row);
    RC_ASSERT(paper.contains(strip[1]));
    RC_ASSERT(paper.distance_to_boundary(Ring(strip.begin(), strip.end())) >= 1.5 - 1e-6);
    RC_ASSERT(row.to.x - row.from.x >= 3 - 1e-9);
    RC_ASSERT(row.side == (i % 2 == 0 ? Side::inside : Side::between));
    if (i > 0)
      RC_ASSERT(row.from.z - leaf.rows[i - 1].from.z - row.width_mm >= 2 - 1e-9);
  }
  RC_ASSERT(leaf.rows.size() % 2 == 1);
  const Leaf again = built(design);
  RC_ASSERT(again.rows.size() == leaf.rows.size());
  for (std::size_t i = 0; i < leaf.rows.size(); ++i)
    RC_ASSERT(again.rows[i].to == leaf.rows[i].to);
}

RC_GTEST_PROP(leaf, a_larger_size_of_as_many_leaves_has_no_fewer_placed_rows, ()) {
  const auto within = [](int from, int to) { return *rc::gen::resize(100, rc::gen::inRange(from, to)); };
  // A plain body: on tiers the tips decide.
  const std::string path =
      "M 0 0 H " + std::to_string(within(30, 60)) + " L " + std::to_string(within(30, 60)) + " 200 H 0";
  design::Design design = placed(path, within(30, 61));
  std::size_t before = 0;
  for (const double height : {80.0, 120.0, 180.0, 260.0}) {
    design.sizes[0].height_mm = height;
    const auto count = built(design).rows.size();
    RC_ASSERT(count >= before);
    before = count;
  }
}

} // namespace
} // namespace fanwright::leaf
