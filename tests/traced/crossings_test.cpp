// Where rings meet, held against looking at every pair of edges.
#include "traced/crossings.h"

#include "leaf/contour.h"
#include "traced/outlines.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::traced {
namespace {

Ring square(double left, double bottom, double side) {
  return {{left, bottom}, {left + side, bottom}, {left + side, bottom + side}, {left, bottom + side}};
}

using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;

TEST(crossings, are_found_between_rings_and_touching_counts_as_meeting_alone) {
  const auto across = crossings_of({square(0, 0, 10), square(5, 5, 10), square(2, 2, 1)});
  ASSERT_TRUE(across);
  EXPECT_GE(across->count, 2);
  EXPECT_EQ(across->rings, (Pairs{{0, 1}}));
  const auto beside = crossings_of({square(0, 0, 10), square(10, 0, 10), square(30, 0, 10)});
  ASSERT_TRUE(beside);
  EXPECT_EQ(beside->count, 0);
  EXPECT_EQ(beside->rings, (Pairs{{0, 1}}));
}

TEST(crossings, of_a_ring_with_itself_are_counted) {
  Ring star;
  for (int k = 0; k < 5; ++k)
    star.push_back({std::cos(k * 0.8 * std::numbers::pi), std::sin(k * 0.8 * std::numbers::pi)});
  const auto own = crossings_of({star});
  ASSERT_TRUE(own);
  EXPECT_GE(own->count, 5);
  EXPECT_TRUE(own->rings.empty());
}

TEST(crossings, of_a_line_to_and_fro_and_up_and_down_are_too_many) {
  Ring weave;
  for (int k = 0; k < 400; ++k)
    weave.push_back({k / 2 % 2 == 0 ? 0.0 : 100.0, k / 4.0});
  for (int k = 0; k < 400; ++k)
    weave.push_back({k / 4.0, k / 2 % 2 == 0 ? 0.0 : 100.0});
  EXPECT_FALSE(crossings_of({weave}));
}

int within(int from, int to) { return *rc::gen::resize(100, rc::gen::inRange(from, to)); }

/// Whole coordinates, so that the sides of lines are exact.
Ring random_ring() {
  Ring ring;
  const int size = within(3, 12);
  const int right = within(0, 60), up = within(0, 60);
  for (int k = 0; k < size; ++k)
    ring.push_back({double(right + within(0, 40)), double(up + within(0, 40))});
  return ring;
}

bool edges_meet(Point a, Point b, Point c, Point d) {
  const auto side = [](Point p, Point q, Point r) { return (q.x - p.x) * (r.z - p.z) - (q.z - p.z) * (r.x - p.x); };
  const auto between = [](Point p, Point q, Point r) {
    return std::min(p.x, q.x) <= r.x && r.x <= std::max(p.x, q.x) && std::min(p.z, q.z) <= r.z &&
           r.z <= std::max(p.z, q.z);
  };
  const double c_side = side(a, b, c), d_side = side(a, b, d), a_side = side(c, d, a), b_side = side(c, d, b);
  if (c_side * d_side < 0 && a_side * b_side < 0)
    return true;
  return (c_side == 0 && between(a, b, c)) || (d_side == 0 && between(a, b, d)) || (a_side == 0 && between(c, d, a)) ||
         (b_side == 0 && between(c, d, b));
}

bool rings_meet(const Ring& one, const Ring& other) {
  for (std::size_t i = 0; i < one.size(); ++i)
    for (std::size_t j = 0; j < other.size(); ++j)
      if (edges_meet(one[i], one[(i + 1) % one.size()], other[j], other[(j + 1) % other.size()]))
        return true;
  return false;
}

RC_GTEST_PROP(crossings, rings_meet_where_every_pair_of_edges_says_so, ()) {
  std::vector<Ring> rings;
  for (auto count = within(2, 5); count > 0; --count)
    rings.push_back(random_ring());
  Pairs meeting;
  for (std::size_t i = 0; i < rings.size(); ++i)
    for (std::size_t j = i + 1; j < rings.size(); ++j)
      if (rings_meet(rings[i], rings[j]))
        meeting.emplace_back(i, j);
  const auto found = crossings_of(rings);
  RC_ASSERT(found.has_value());
  RC_ASSERT(found->rings == meeting);
}

Areas area(const Ring& ring) { return {{ring, {}}}; }

TEST(outlines, in_one_another_are_cut_out_in_turn) {
  std::vector<Areas> outlines;
  double expected = 0;
  for (int k = 0; k < 40; ++k) {
    outlines.push_back(area(square(k, k, 100 - 2 * k)));
    expected += (k % 2 == 0 ? 1 : -1) * std::pow(100 - 2 * k, 2);
  }
  std::swap(outlines[3], outlines[17]);
  const auto together = nested(outlines);
  ASSERT_TRUE(together);
  EXPECT_NEAR(area_of(*together), expected, 1e-6);
}

TEST(outlines, that_overlap_are_united_and_ones_that_share_an_edge_inside_are_cut_out) {
  const auto overlapping = nested({area(square(0, 0, 10)), area(square(5, 5, 10))});
  ASSERT_TRUE(overlapping);
  EXPECT_NEAR(area_of(*overlapping), 175, 1e-6);
  const auto inside = nested({area(square(0, 0, 10)), area(square(0, 3, 4))});
  ASSERT_TRUE(inside);
  EXPECT_NEAR(area_of(*inside), 84, 1e-6);
}

} // namespace
} // namespace fanwright::traced
