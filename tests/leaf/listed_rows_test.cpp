#include "leaf/listed_rows.h"

#include "designs.h"

#include <rapidcheck/gtest.h>

namespace fanwright::leaf {
namespace {

using design::ListedRow;
using design::Side;
using List = std::vector<ListedRow>;

const ListedRow low{Side::inside, 3, 20, 57, 20, 3};
const ListedRow high{Side::between, 3, 100, 57, 100, 3};

design::Design listing(const List& list, const std::string& path = rectangle) { return design_of(path, list); }

TEST(leaf, keeps_listed_rows_and_sorts_them_from_the_foot) {
  const Leaf leaf = built(listing({high, {Side::inside, 57, 70, 3, 50, 2}, low}));
  ASSERT_EQ(leaf.rows.size(), 3u);
  EXPECT_EQ(leaf.rows[0].from.z, 20);
  EXPECT_EQ(leaf.rows[1].from.x, 3); // swapped: the file gave the outer end first
  EXPECT_EQ(leaf.rows[1].from.z, 50);
  EXPECT_EQ(leaf.rows[1].to.z, 70);
  EXPECT_EQ(leaf.rows[1].width_mm, 2);
  EXPECT_EQ(leaf.rows[2].side, Side::between);
}

TEST(leaf, scales_places_of_listed_rows_but_not_their_width) {
  auto design = listing({low, high});
  design.sizes[0].height_mm = 300;
  const Leaf leaf = built(design);
  EXPECT_DOUBLE_EQ(leaf.rows[0].from.x, 6);
  EXPECT_DOUBLE_EQ(leaf.rows[0].to.x, 114);
  EXPECT_DOUBLE_EQ(leaf.rows[1].from.z, 200);
  EXPECT_EQ(leaf.rows[0].width_mm, 3);
}

TEST(leaf, refuses_a_row_that_leaves_the_leaf) {
  expect_refused(listing({low, high, {Side::inside, 3, 60, 62, 60, 3}}), "/rows/2/to", "2.0 mm outside the leaf");
  expect_refused(listing({low, high, {Side::inside, 62, 60, 3, 60, 3}}), "/rows/2/from", "2.0 mm outside the leaf");
  expect_refused(listing({low, high, {Side::inside, -1, 60, 30, 60, 3}}), "/rows/2/from", "1.0 mm outside the leaf");
  expect_refused(listing({low, high, {Side::inside, 3, 60, 59.9, 60, 3}}), "/rows/2/to", "only 0.10 mm from the edge");
  expect_refused(listing({low, high, {Side::inside, 3, 1, 50, 1, 3}}), "/rows/2/from", "0.50 mm outside the leaf");
  const std::string waist = "M 0 0 H 60 V 50 L 20 70 L 60 90 V 150 H 0";
  expect_refused(listing({low, high, {Side::inside, 3, 70, 30, 70, 3}}, waist), "/rows/2/to", "outside the leaf");
}

TEST(leaf, refuses_a_row_across_a_cut_or_a_cut_out) {
  const std::string notch = "M 0 0 H 60 V 60 L 30 61 L 60 62 V 150 H 0";
  expect_refused(listing({low, high, {Side::inside, 3, 55, 55, 67, 3}}, notch), "/rows/2", "between its ends");
  const std::string hole = rectangle + "M 30 60 h 0.6 v 0.6 h -0.6 z";
  expect_refused(listing({low, high, {Side::inside, 3, 60, 55, 60, 3}}, hole), "/rows/2", "between its ends");
  expect_refused(listing({low, high, {Side::inside, 3, 60, 30.3, 61.4, 3}}, hole), "/rows/2/to", "only 0.10 mm");
}

TEST(leaf, refuses_rows_that_are_steep_or_short) {
  expect_refused(listing({low, high, {Side::inside, 10, 40, 30, 80, 3}}), "/rows/2", "slope of 63 degrees");
  expect_refused(listing({low, high, {Side::inside, 10, 40, 10, 80, 3}}), "/rows/2", "slope of 90 degrees");
  expect_refused(listing({low, high, {Side::inside, 10, 40, 11, 40, 3}}), "/rows/2", "is 1.0 mm long");
}

TEST(leaf, refuses_rows_that_overlap_or_cross) {
  expect_refused(listing({low, high, {Side::between, 3, 22, 57, 22, 3}}), "/rows/2", "overlaps or crosses row 1");
  expect_refused(listing({low, high, {Side::between, 3, 10, 57, 40, 3}}), "/rows/2", "overlaps or crosses row 1");
  expect_refused(listing({low, high, {Side::between, 3, 23.2, 57, 23.2, 3}}), "/rows/2",
                 "leaves 0.20 mm of clear paper");
  expect_refused(listing({{Side::inside, 3, 20, 30, 20, 3}, high, {Side::between, 30, 20, 50, 20, 3}}), "/rows/2",
                 "overlaps or crosses row 1");
}

TEST(leaf, accepts_two_rows_beside_each_other) {
  EXPECT_EQ(built(listing({{Side::inside, 3, 20, 30, 20, 3}, high, {Side::between, 31, 20, 50, 20, 3}})).rows.size(),
            3u);
}

TEST(leaf, rows_at_different_heights_may_begin_where_others_end) {
  const design::ListedRow inner{Side::inside, 3, 20, 30, 20, 3}, outer{Side::between, 30.1, 80, 57, 80, 3};
  EXPECT_EQ(built(listing({inner, outer})).rows.size(), 2u);
  // At one height they must leave half a millimetre.
  const design::ListedRow beside{Side::between, 30.1, 20, 57, 20, 3};
  expect_refused(listing({inner, beside}), "/rows/1", "leaves 0.10 mm of clear paper");
}

TEST(leaf, refuses_lists_without_both_sides) {
  expect_refused(listing({low}), "/rows", "No row is of the side \"between\"");
  expect_refused(listing({high, high}), "/rows", "No row is of the side \"inside\"");
  expect_refused(listing({}), "/rows", "No row");
  expect_refused(listing(List(401, low)), "/rows", "401 rows");
}

RC_GTEST_PROP(leaf, listed_rows_are_kept_or_refused_at_one_of_them, ()) {
  List list{low, high};
  for (int i = 0; i < 3; ++i) {
    const auto number = [](int from, int to) { return static_cast<double>(*rc::gen::inRange(from, to)); };
    list.push_back({Side::inside, number(-5, 70), number(-5, 155), number(-5, 70), number(-5, 155), number(1, 9)});
  }
  const auto design = listing(list);
  const auto result = build(design, design.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&result)) {
    RC_ASSERT(refusal->where.rfind("/rows/", 0) == 0);
  } else {
    for (const GlueRow& row : std::get<Leaf>(result).rows) {
      RC_ASSERT(row.from.x >= 0.2);
      RC_ASSERT(row.to.x <= 59.8);
      RC_ASSERT(std::max(row.from.z, row.to.z) + row.width_mm / 2 <= 149.8);
    }
  }
}

} // namespace
} // namespace fanwright::leaf
