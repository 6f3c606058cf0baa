#include "sheets/split.h"

#include "leaf/contour.h"
#include "sheets/exact.h"
#include "sheets/shape.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace fanwright;
using namespace fanwright::sheets;

namespace {

/// A half leaf 100 wide and 200 high, spine from 0 to 200.
leaf::Leaf rectangle_leaf() {
  leaf::Leaf leaf;
  leaf.outline = {{0, 0}, {leaf::Line{{100, 0}}, leaf::Line{{100, 200}}, leaf::Line{{0, 200}}, leaf::Line{{0, 0}}}};
  leaf.spine_foot_z = 0, leaf.spine_top_z = 200;
  return leaf;
}

std::string refusal_of(const leaf::Leaf& leaf, double lap) {
  const auto result = split_at_spine(leaf, lap);
  return std::holds_alternative<Refusal>(result) ? std::get<Refusal>(result).sentence : "";
}

} // namespace

TEST(sheets, splits_a_leaf_into_halves_with_a_lap_at_the_spine) {
  const auto result = split_at_spine(rectangle_leaf(), 10);
  ASSERT_TRUE(std::holds_alternative<SplitLeaf>(result));
  const auto& split = std::get<SplitLeaf>(result);
  // By hand: the lap is a trapezium of (199 + 179) / 2 x 10.
  EXPECT_NEAR(leaf::signed_area(split.right), 100 * 200 + 1890, 1e-6);
  EXPECT_NEAR(leaf::signed_area(split.left), 100 * 200, 1e-6);
  EXPECT_DOUBLE_EQ(leaf::bounds(split.right).left, -10);
  EXPECT_DOUBLE_EQ(leaf::bounds(split.left).right, 0);
  EXPECT_FALSE(crosses_itself(loop_of(leaf::flatten(split.right, leaf::flatten_tolerance_mm))));
  EXPECT_EQ(split.score_to.z, 200);
  for (const leaf::Point& corner : split.glue)
    EXPECT_TRUE(corner.x <= -1 && corner.x >= -9);
  // By hand: the lap's upper end is z = 199.5 + x; a millimetre across it is the square root of 2 along the spine.
  for (const std::size_t corner : {1, 2})
    EXPECT_NEAR(split.glue[corner].z, 199.5 + split.glue[corner].x - std::sqrt(2), 1e-9);
  for (const std::size_t corner : {3, 0})
    EXPECT_NEAR(split.glue[corner].z, 0.5 - split.glue[corner].x + std::sqrt(2), 1e-9);
  EXPECT_GT(leaf::signed_area(leaf::Ring(split.glue.begin(), split.glue.end())), 0) << "counter-clockwise";
}

TEST(sheets, refuses_laps_that_do_not_hold_or_do_not_fit) {
  EXPECT_NE(refusal_of(rectangle_leaf(), 4).find("at least 5 mm"), std::string::npos);
  EXPECT_NE(refusal_of(rectangle_leaf(), 100).find("too short"), std::string::npos);
  leaf::Leaf waisted = rectangle_leaf(); // 8 mm wide at 150, wide enough at the lap's ends and middle
  waisted.outline.segments.insert(waisted.outline.segments.begin() + 1,
                                  {leaf::Line{{100, 140}}, leaf::Line{{8, 150}}, leaf::Line{{100, 160}}});
  EXPECT_NE(refusal_of(waisted, 10).find("wider than the leaf"), std::string::npos);
  EXPECT_TRUE(refusal_of(waisted, 7).empty());
  leaf::Leaf holed = rectangle_leaf();
  holed.cut_outs.push_back({{8, 50}, {leaf::Line{{8, 60}}, leaf::Line{{20, 60}}, leaf::Line{{8, 50}}}});
  EXPECT_NE(refusal_of(holed, 10).find("narrower than 8 mm"), std::string::npos);
  EXPECT_TRUE(refusal_of(holed, 6).empty());
}
