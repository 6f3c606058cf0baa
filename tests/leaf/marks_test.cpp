#include "leaf/marks.h"

#include "designs.h"

#include "leaf/contour.h"

#include <rapidcheck/gtest.h>

namespace fanwright::leaf {
namespace {

const std::string curved = "M 0 0 C 30 -10 60 30 40 60 A 30 20 25 0 1 20 100 Q 40 130 0 150 M 15 40 h 9 v 12 z";

bool same(const std::array<Point, 4>& a, const std::array<Point, 4>& b) {
  return std::equal(a.begin(), a.end(), b.begin());
}

TEST(leaf, inside_rows_are_marked_on_the_inner_and_between_rows_on_the_outer_face) {
  const Leaf leaf = built(design_of(rectangle));
  const Marks result = marks(leaf);
  ASSERT_EQ(result.glue.size(), 2 * leaf.rows.size());
  for (const GlueMark& mark : result.glue) {
    const bool inside = leaf.rows[mark.row].side == design::Side::inside;
    EXPECT_EQ(mark.face, inside ? Face::inner : Face::outer);
    for (const Point p : mark.corners)
      EXPECT_EQ(mark.half == Half::right, p.x > 0);
  }
}

TEST(leaf, the_two_halves_carry_each_row_as_mirror_images) {
  const Leaf leaf = built(design_of(curved, std::vector<design::ListedRow>{{design::Side::inside, 3, 20, 30, 26, 3},
                                                                           {design::Side::between, 4, 80, 12, 78, 2}}));
  const Marks result = marks(leaf);
  for (std::size_t i = 0; i < result.glue.size(); i += 2) {
    const GlueMark &right = result.glue[i], &left = result.glue[i + 1];
    EXPECT_EQ(right.row, left.row);
    EXPECT_EQ(left.half, Half::left);
    const auto& c = left.corners;
    const std::array<Point, 4> back{{{-c[1].x, c[1].z}, {-c[0].x, c[0].z}, {-c[3].x, c[3].z}, {-c[2].x, c[2].z}}};
    EXPECT_TRUE(same(right.corners, back));
    for (const auto& mark : {right, left})
      EXPECT_GT(signed_area(Ring(mark.corners.begin(), mark.corners.end())), 0);
  }
}

TEST(leaf, the_whole_cut_is_one_closed_symmetric_curve_without_the_spine) {
  const Leaf leaf = built(design_of(curved));
  const Marks result = marks(leaf);
  EXPECT_EQ(result.cut.start, (Point{0, 0}));
  EXPECT_EQ(end_of(result.cut.segments.back()), (Point{0, 0}));
  EXPECT_EQ(result.cut.segments.size(), 2 * (leaf.outline.segments.size() - 1));
  EXPECT_NEAR(signed_area(result.cut), 2 * signed_area(leaf.outline), 1e-9);
  const Box box = bounds(result.cut);
  EXPECT_NEAR(box.left, -box.right, 1e-9);
  for (const Segment& segment : result.cut.segments)
    EXPECT_FALSE(std::holds_alternative<Line>(segment));
  EXPECT_EQ(result.score_foot, (Point{0, 0}));
  EXPECT_EQ(result.score_top, (Point{0, 150}));
}

TEST(leaf, cut_outs_appear_on_both_halves) {
  const Marks result = marks(built(design_of(curved)));
  ASSERT_EQ(result.cut_outs.size(), 2u);
  EXPECT_LT(signed_area(result.cut_outs[0]), 0);
  EXPECT_DOUBLE_EQ(signed_area(result.cut_outs[0]), signed_area(result.cut_outs[1]));
  EXPECT_DOUBLE_EQ(bounds(result.cut_outs[1]).left, -24);
}

RC_GTEST_PROP(leaf, the_flattened_whole_cut_is_its_own_mirror_image, ()) {
  auto design = design_of(curved);
  design.sizes[0].height_mm = *rc::gen::inRange(90, 900);
  const Ring ring = flatten(marks(built(design)).cut, flatten_tolerance_mm);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point p = ring[i], q = ring[(ring.size() - i) % ring.size()];
    RC_ASSERT(std::abs(p.x + q.x) < 1e-9);
    RC_ASSERT(std::abs(p.z - q.z) < 1e-9);
  }
}

} // namespace
} // namespace fanwright::leaf
