#include "leaf/even_rows.h"

#include "designs.h"

#include "leaf/region.h"
#include "leaf/strip.h"

#include <rapidcheck/gtest.h>

#include <cmath>

namespace fanwright::leaf {
namespace {

using design::EvenRows;
using design::Side;

TEST(leaf, spaces_rows_evenly_between_foot_and_top) {
  const Leaf leaf = built(design_of(rectangle, EvenRows{13, Side::between, 4, 5, 6}));
  ASSERT_EQ(leaf.rows.size(), 13u);
  for (std::size_t i = 0; i < 13; ++i) {
    const GlueRow& row = leaf.rows[i];
    EXPECT_EQ(row.side, i % 2 == 0 ? Side::between : Side::inside);
    EXPECT_NEAR(row.from.z, 8 + (150 - 16) / 12.0 * static_cast<double>(i), 1e-9);
    EXPECT_EQ(row.from.z, row.to.z);
    EXPECT_EQ(row.from.x, 5);
    EXPECT_NEAR(row.to.x, 54, 1e-12);
    EXPECT_EQ(row.width_mm, 4);
  }
}

TEST(leaf, a_row_ends_at_the_gap_from_the_narrowest_part_of_its_band) {
  const Leaf leaf = built(design_of("M 0 0 H 60 L 10 100 H 0", EvenRows{5, Side::inside, 4, 3, 3}));
  for (const GlueRow& row : leaf.rows)
    EXPECT_NEAR(row.to.x, 60 - 0.5 * (row.to.z + 2) - 3, 1e-9);
}

TEST(leaf, a_row_stays_in_the_part_joined_to_the_spine) {
  // A tier hangs down outside the row's band: beyond x = 20 there is air, then paper again.
  const Leaf leaf = built(design_of("M 0 0 H 20 V 60 H 50 V 20 H 70 V 80 H 0", EvenRows{3, Side::inside, 4, 3, 3}));
  EXPECT_NEAR(leaf.rows[1].to.z, 40, 1e-9);
  EXPECT_NEAR(leaf.rows[1].to.x, 17, 1e-9);
}

TEST(leaf, a_row_keeps_away_from_a_tier_ending_just_below_it) {
  // The upper tier's floor is at z = 38.5, 0.5 mm below the row's band [39, 41]; half the gap of 3 mm is kept clear:
  // from the corner (20, 38.5) by sqrt(1.5^2 - 0.5^2).
  const Leaf leaf = built(design_of("M 0 0 H 20 V 38.5 H 70 V 80 H 0", EvenRows{3, Side::inside, 2, 3, 3}));
  EXPECT_NEAR(leaf.rows[1].to.z, 40, 1e-9);
  EXPECT_NEAR(leaf.rows[1].to.x, 20 - std::sqrt(2.0), 1e-9);
}

TEST(leaf, a_row_ends_before_a_cut_out) {
  const Leaf leaf = built(design_of(rectangle + "M 30 70 h 10 v 10 h -10 z", EvenRows{3, Side::inside, 3, 3, 3}));
  EXPECT_NEAR(leaf.rows[1].to.x, 27, 1e-9);
  EXPECT_NEAR(leaf.rows[0].to.x, 57, 1e-9);
}

TEST(leaf, rows_of_a_pointed_leaf_begin_where_three_millimetres_fit) {
  // Right-hand edge x = z below; band bottom z - 1.5, so the length z - 1.5 - 3 - 3 reaches 3 mm at z = 10.5.
  const Leaf leaf = built(design_of("M 0 0 L 75 75 L 0 150", EvenRows{5, Side::inside, 3, 3, 3}));
  EXPECT_NEAR(leaf.rows.front().from.z, 10.5, 1e-3);
  EXPECT_NEAR(leaf.rows.front().to.x, 6, 1e-3);
  EXPECT_NEAR(leaf.rows.back().from.z, 139.5, 1e-3);
  EXPECT_NEAR(leaf.rows[2].from.z, 75, 1e-3);
  EXPECT_EQ(leaf.rows[1].side, Side::between);
}

TEST(leaf, refuses_rows_that_do_not_fit) {
  expect_refused(design_of(rectangle, EvenRows{60, Side::inside, 3, 3, 3}), "/rows",
                 "60 rows would stand 2.4 mm apart");
  expect_refused(design_of(rectangle, EvenRows{1, Side::inside, 3, 3, 3}), "/rows", "There are 1 glue rows");
  expect_refused(design_of(rectangle, EvenRows{401, Side::inside, 0.01, 3, 3}), "/rows", "at most 400");
  expect_refused(design_of(rectangle, EvenRows{5, Side::inside, 3, 55, 3}), "/rows", "No two glue rows");
  expect_refused(design_of(rectangle, EvenRows{5, Side::inside, 3, 3, 80}), "/rows", "No two glue rows");
}

TEST(leaf, refuses_a_row_in_a_neck_too_narrow_for_it) {
  expect_refused(design_of("M 0 0 H 40 V 40 L 7 50 L 40 60 V 100 H 0", EvenRows{5, Side::inside, 3, 3, 3}), "/rows",
                 "Row 3 from the foot would stand at z 50.0 mm, where the silhouette leaves 1.0 mm");
}

RC_GTEST_PROP(leaf, even_rows_lie_on_paper_with_their_gap, ()) {
  // Zigzag edges, overhanging where the step in z is negative; drawn from the whole range from the first case on.
  const auto within = [](int from, int to) { return *rc::gen::resize(100, rc::gen::inRange(from, to)); };
  std::string path = "M 0 0 H 40";
  double z = 0;
  for (int i = 0; i < 12; ++i) {
    z += within(-4, 30);
    path += " L " + std::to_string(within(12, 90)) + " " + std::to_string(z);
  }
  const double gap = within(1, 6);
  const auto design =
      design_of(path + " L 12 " + std::to_string(z + 40) + " H 0", EvenRows{within(2, 20), Side::inside, 3, 3, gap});
  const auto result = build(design, design.sizes[0]);
  RC_PRE(std::holds_alternative<Leaf>(result));
  const Leaf& leaf = std::get<Leaf>(result);
  const Region paper(flatten(leaf.outline, flatten_tolerance_mm));
  for (const GlueRow& row : leaf.rows) {
    const auto strip = corners(row);
    RC_ASSERT(paper.contains(strip[1]));
    RC_ASSERT(paper.distance_to_boundary(Ring(strip.begin(), strip.end())) >= std::min(gap / 2, 3.0) - 1e-6);
  }
  for (std::size_t i = 1; i < leaf.rows.size(); ++i)
    RC_ASSERT(clear_between(leaf.rows[i - 1], leaf.rows[i]) >= 0.5 - 1e-9);
}

} // namespace
} // namespace fanwright::leaf
