#include "fit/advice.h"
#include "fit/advice_practice.h"
#include "opened/opened.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

namespace fanwright::fit {
namespace {

/// A spindle: widest in the middle, `slenderness` = diameter over height; rows 14 mm apart in slim bodies, 18 in broad.
design::Design spindle(double height, double slenderness, int rows = 0) {
  const double reach = slenderness * height / 2;
  design::Design design;
  design.shows = design::Shows::flat;
  const auto number = [](double value) { return std::to_string(value); };
  // A cubic whose controls lie 4/3 of the reach out is as wide as the reach.
  design.silhouette_path = "M 0 0 L " + number(0.3 * reach) + " 0 C " + number(1.23333 * reach) + " " +
                           number(0.2 * height) + " " + number(1.23333 * reach) + " " + number(0.8 * height) + " " +
                           number(0.3 * reach) + " " + number(height) + " L 0 " + number(height);
  design::Size size;
  size.name = "one";
  size.leaves = 42;
  size.rows = design::EvenRows{rows > 0 ? rows : static_cast<int>(height / (12 + reach / 20)), design::Side::inside,
                               usual_row_width_mm(height), 3, 3};
  size.paper = paper::typical_paper(paper_advice(height).usual_gsm);
  design.sizes = {size};
  return design;
}

leaf::Leaf leaf_of(const design::Design& design) {
  auto leaf = leaf::build(design, design.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    throw std::runtime_error(refusal->sentence);
  }
  return std::get<leaf::Leaf>(std::move(leaf));
}

LeafAdvice advice_for(double height, double slenderness) {
  const design::Design design = spindle(height, slenderness);
  return leaf_advice(leaf_of(design), design.sizes[0]);
}

TEST(fit, broad_bodies_of_240_to_300_mm_take_about_40_to_50_leaves) {
  // Common practice, no source.
  for (const double height : {240.0, 260.0, 280.0, 300.0}) {
    for (const double slenderness : {0.6, 0.7, 0.8}) {
      const LeafAdvice advice = advice_for(height, slenderness);
      EXPECT_NEAR(advice.low, 40, 3) << height << " x " << slenderness;
      EXPECT_NEAR(advice.high, 50, 3) << height << " x " << slenderness;
    }
  }
}

TEST(fit, slim_bodies_of_240_to_300_mm_take_about_35_to_45_leaves) {
  // Common practice, no source.
  for (const double height : {240.0, 260.0, 280.0, 300.0}) {
    for (const double slenderness : {0.35, 0.4, 0.45}) {
      const LeafAdvice advice = advice_for(height, slenderness);
      EXPECT_NEAR(advice.low, 35, 3) << height << " x " << slenderness;
      EXPECT_NEAR(advice.high, 45, 3) << height << " x " << slenderness;
    }
  }
}

TEST(fit, large_pieces_take_paper_of_about_170_and_small_ones_of_120_gsm) {
  // Common practice, no source: 160 to 180 for large pieces, about 120 for small.
  for (const double height : {240.0, 260.0, 280.0, 300.0}) {
    EXPECT_NEAR(paper_advice(height).usual_gsm, 170, 10) << height;
  }
  for (const double height : {60.0, 80.0, 100.0, 125.0}) {
    EXPECT_EQ(paper_advice(height).usual_gsm, 120) << height;
  }
}

TEST(fit, the_lock_ratio_of_the_cells_is_that_of_the_opened_form) {
  const design::Design design = spindle(150, 0.7);
  const leaf::Leaf leaf = leaf_of(design);
  const auto form = std::get<opened::Form>(opened::open(opened::panel_of(leaf, design.sizes[0])));
  EXPECT_NEAR(cells_of(leaf, design.sizes[0], 42).most_lock_ratio, form.lock_ratio, 0.005);
}

TEST(fit, hub_and_stack_follow_from_caliper_and_leaves) {
  design::Design design = spindle(150, 0.7);
  design.sizes[0].paper.caliper_mm = 0.229;
  const Cells cells = cells_of(leaf_of(design), design.sizes[0], 20);
  // Twenty leaves folded once of 0.229 mm are 40 layers, 9.16 mm, before glue; 20 films of 0.1 mm lie between.
  EXPECT_NEAR(cells.stack_mm, 9.16 + 2.0, 1e-9);
  // Circumference of the hub = 40 layers.
  EXPECT_NEAR(2 * 3.14159265358979 * cells.hub_radius_mm, 9.16, 1e-9);
}

TEST(fit, rows_too_close_for_the_leaves_ask_for_more_leaves) {
  const design::Design design = spindle(150, 0.9, 21);
  const leaf::Leaf leaf = leaf_of(design);
  const LeafAdvice advice = leaf_advice(leaf, design.sizes[0]);
  EXPECT_TRUE(advice.rows_ask_for_more);
  EXPECT_LE(cells_of(leaf, design.sizes[0], advice.low).most_lock_ratio, practice::most_lock + 1e-9);
  EXPECT_GT(cells_of(leaf, design.sizes[0], advice.low - 1).most_lock_ratio, practice::most_lock);
  EXPECT_NE(advice.low_reason.find("lock ratio"), std::string::npos);
}

TEST(fit, a_narrow_neck_and_thick_card_allow_fewer_leaves) {
  design::Design design = spindle(150, 0.7);
  design.silhouette_path = "M 0 0 L 50 0 C 50 50 8 60 8 75 C 8 90 50 100 50 150 L 0 150";
  design.sizes[0].paper.caliper_mm = 0.16;
  const int thin = leaf_advice(leaf_of(design), design.sizes[0]).high;
  design.sizes[0].paper.caliper_mm = 0.35;
  const LeafAdvice thick = leaf_advice(leaf_of(design), design.sizes[0]);
  EXPECT_LT(thick.high, thin);
  EXPECT_NE(thick.high_reason.find("neck"), std::string::npos) << thick.high_reason;
}

TEST(fit, advice_on_a_huge_body_never_locks) {
  const design::Design design = spindle(1900, 0.95, 60);
  const leaf::Leaf leaf = leaf_of(design);
  const LeafAdvice advice = leaf_advice(leaf, design.sizes[0]);
  EXPECT_LE(cells_of(leaf, design.sizes[0], advice.low).most_lock_ratio, practice::most_lock + 1e-9);
  const RowAdvice rows = row_advice(leaf, design.sizes[0], 86);
  EXPECT_LT(3.14159265358979 / 86 * body_of(leaf).radius_mm / (rows.spacing_mm - leaf.rows[0].width_mm), 0.7);
}

TEST(fit, advice_opens_every_leaf_count_it_speaks_of) {
  const design::Design design = spindle(140, 0.6);
  const auto advice = std::get<Advice>(advise(design, design.sizes[0]));
  ASSERT_GE(advice.looks.size(), 3u);
  for (const Opened& look : advice.looks) {
    ASSERT_TRUE(look.moment_nmm);
    EXPECT_GT(*look.moment_nmm, 0);
    EXPECT_LE(look.cells.most_lock_ratio, 0.7 + 1e-9);
  }
  // Fewer leaves are harder to hold open: each swings further.
  EXPECT_GT(*advice.looks.front().moment_nmm, *advice.looks.back().moment_nmm);
}

TEST(fit, advice_is_given_for_a_drawing_that_does_not_open_with_its_own_leaves) {
  design::Design design = spindle(150, 0.7);
  design.shows = design::Shows::opened;
  design.sizes[0].leaves = 8;
  const auto advice = advise(design, design.sizes[0]);
  ASSERT_TRUE(std::holds_alternative<Advice>(advice));
  EXPECT_GT(std::get<Advice>(advice).leaves.low, 20);
}

RC_GTEST_PROP(fit, wider_bodies_never_take_fewer_leaves, ()) {
  const double height = *rc::gen::inRange(80, 320);
  const int slim = *rc::gen::inRange(25, 90);
  const int broader = *rc::gen::inRange(slim, 95);
  const LeafAdvice a = advice_for(height, slim / 100.0);
  const LeafAdvice b = advice_for(height, broader / 100.0);
  RC_ASSERT(a.usual <= b.usual);
  RC_ASSERT(a.low <= b.low);
  RC_ASSERT(a.low <= a.usual);
  RC_ASSERT(a.usual <= a.high);
}

RC_GTEST_PROP(fit, a_wall_piece_takes_its_share_of_the_leaves_of_a_round_one, ()) {
  design::Design design = spindle(*rc::gen::inRange(100, 300), 0.6);
  const leaf::Leaf leaf = leaf_of(design);
  const int round = leaf_advice(leaf, design.sizes[0]).usual;
  design.sizes[0].opening_deg = 180;
  RC_ASSERT(std::abs(2 * leaf_advice(leaf, design.sizes[0]).usual - round) <= 1);
}

RC_GTEST_PROP(fit, more_leaves_make_narrower_cells_and_a_thicker_stack, ()) {
  const design::Design design = spindle(*rc::gen::inRange(80, 320), *rc::gen::inRange(25, 95) / 100.0);
  const leaf::Leaf leaf = leaf_of(design);
  const int leaves = *rc::gen::inRange(8, 100);
  const Cells few = cells_of(leaf, design.sizes[0], leaves);
  const Cells more = cells_of(leaf, design.sizes[0], leaves + 1);
  RC_ASSERT(few.width_mm > more.width_mm);
  RC_ASSERT(few.lock_ratio > more.lock_ratio);
  RC_ASSERT(few.hub_radius_mm < more.hub_radius_mm);
  RC_ASSERT(few.stack_mm < more.stack_mm);
  RC_ASSERT(few.per_dm2 < more.per_dm2);
}

RC_GTEST_PROP(fit, rows_advised_keep_the_cells_within_the_window, ()) {
  const design::Design design = spindle(*rc::gen::inRange(120, 320), *rc::gen::inRange(35, 80) / 100.0);
  const leaf::Leaf leaf = leaf_of(design);
  const LeafAdvice leaves = leaf_advice(leaf, design.sizes[0]);
  const RowAdvice rows = row_advice(leaf, design.sizes[0], leaves.usual);
  RC_ASSERT(rows.low <= rows.usual);
  RC_ASSERT(rows.usual <= rows.high);
  const double swing = 3.14159265358979 / leaves.usual * body_of(leaf).radius_mm;
  const double ratio = swing / (rows.spacing_mm - leaf.rows[0].width_mm);
  RC_ASSERT(ratio > 0.3);
  RC_ASSERT(ratio < 0.7);
}

RC_GTEST_PROP(fit, higher_pieces_never_take_lighter_paper_or_narrower_rows, ()) {
  const double height = *rc::gen::inRange(40, 600);
  const double higher = height + *rc::gen::inRange(1, 200);
  RC_ASSERT(paper_advice(height).usual_gsm <= paper_advice(higher).usual_gsm);
  RC_ASSERT(paper_advice(height).low_gsm <= paper_advice(height).usual_gsm);
  RC_ASSERT(paper_advice(height).usual_gsm <= paper_advice(height).high_gsm);
  RC_ASSERT(usual_row_width_mm(height) <= usual_row_width_mm(higher));
}

} // namespace
} // namespace fanwright::fit
