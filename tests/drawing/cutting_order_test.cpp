#include "drawing/cutting_order.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

using namespace fanwright::drawing;

namespace {

Path box(double left, double top, double side, Step step = Step::cut) {
  return polyline(step, {{left, top}, {left + side, top}, {left + side, top + side}, {left, top + side}}, true);
}

Path circle(double x, double y, double radius) {
  return {Step::cut,
          {Move{{x - radius, y}}, Arc{radius, radius, 0, false, true, {x + radius, y}},
           Arc{radius, radius, 0, false, true, {x - radius, y}}, Close{}},
          usual_pen(Step::cut)};
}

Point start_of(const Path& path) { return std::get<Move>(path.segments.front()).to; }

std::size_t place_of(const Path& path, const std::vector<Path>& order) {
  for (std::size_t i = 0; i < order.size(); ++i)
    if (start_of(order[i]).x == start_of(path).x && start_of(order[i]).y == start_of(path).y)
      return i;
  ADD_FAILURE() << "a path is lost";
  return order.size();
}

/// A contour and the index of the one right round it, or its own.
struct Nested {
  Path path;
  std::size_t round;
};

/// Contours in contours: each square may hold four more, set apart from each other and from its edge.
void nest(double left, double top, double side, std::size_t round, int levels, std::vector<Nested>& all) {
  const std::size_t self = all.size();
  const bool round_shape = levels == 0 && *rc::gen::arbitrary<bool>();
  all.push_back({round_shape ? circle(left + side / 2, top + side / 2, side / 2) : box(left, top, side),
                 round == std::size_t(-1) ? self : round});
  if (levels == 0)
    return;
  if (*rc::gen::arbitrary<bool>()) { // one that its size alone would not bring first
    const double room = side * (*rc::gen::inRange(60, 95) / 100.0);
    return nest(left + (side - room) / 2, top + (side - room) / 2, room, self, levels - 1, all);
  }
  for (int i = 0; i < 4; ++i)
    if (*rc::gen::arbitrary<bool>()) {
      const double room = side * (*rc::gen::inRange(10, 40) / 100.0);
      nest(left + side * (i % 2 == 0 ? 0.05 : 0.55), top + side * (i < 2 ? 0.05 : 0.55), room, self, levels - 1, all);
    }
}

} // namespace

RC_GTEST_PROP(drawing, every_hole_is_cut_before_what_surrounds_it, ()) {
  std::vector<Nested> all;
  const int pieces = *rc::gen::inRange(1, 4);
  for (int i = 0; i < pieces; ++i)
    nest(5 + 110 * i, 5, *rc::gen::inRange(20, 100), std::size_t(-1), 3, all);
  std::vector<Path> drawn;
  drawn.reserve(all.size());
  for (const Nested& nested : all)
    drawn.push_back(nested.path);
  for (std::size_t i = drawn.size(); i > 1; --i) // any order of drawing
    std::swap(drawn[i - 1], drawn[static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(i)))]);
  const std::vector<Path> order = in_cutting_order(drawn);
  RC_ASSERT(order.size() == all.size());
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].round != i)
      RC_ASSERT(place_of(all[i].path, order) < place_of(all[all[i].round].path, order));
}

TEST(drawing, small_contours_are_cut_before_large_ones) {
  const std::vector<Path> order = in_cutting_order({box(0, 0, 50), box(60, 0, 3), box(70, 0, 12)});
  ASSERT_EQ(order.size(), 3u);
  EXPECT_EQ(start_of(order[0]).x, 60);
  EXPECT_EQ(start_of(order[1]).x, 70);
  EXPECT_EQ(start_of(order[2]).x, 0);
}

TEST(drawing, equal_contours_are_cut_along_a_short_way) {
  const std::vector<Path> order = in_cutting_order({box(90, 0, 10), box(30, 0, 10), box(60, 0, 10), box(0, 0, 10)});
  for (std::size_t i = 0; i < order.size(); ++i)
    EXPECT_EQ(start_of(order[i]).x, 30.0 * static_cast<double>(i));
}

TEST(drawing, dashes_inside_an_outline_are_cut_before_it) {
  const Path dash = polyline(Step::perforate, {{20, 10}, {20, 14}}, false);
  const std::vector<Path> order = in_cutting_order({box(0, 0, 40), dash});
  ASSERT_EQ(order.size(), 2u);
  EXPECT_EQ(order[0].step, Step::perforate);
}

TEST(drawing, a_path_of_outline_and_window_is_taken_apart) {
  Path both = box(0, 0, 40);
  const Path window = box(10, 10, 5);
  both.segments.insert(both.segments.end(), window.segments.begin(), window.segments.end());
  const std::vector<Path> order = in_cutting_order({both});
  ASSERT_EQ(order.size(), 2u);
  EXPECT_EQ(start_of(order[0]).x, 10);
  EXPECT_EQ(start_of(order[1]).x, 0);
  EXPECT_EQ(order[1].segments.size(), box(0, 0, 40).segments.size());
}

TEST(drawing, an_outline_that_returns_without_closing_surrounds_too) {
  const Path outline = polyline(Step::cut, {{0, 0}, {40, 0}, {40, 40}, {0, 40}, {0, 0}}, false);
  // The window is large: by size alone it would come in the same class.
  const std::vector<Path> order = in_cutting_order({outline, box(2, 2, 30)});
  EXPECT_EQ(start_of(order[0]).x, 2);
}

TEST(drawing, other_steps_keep_their_order_and_come_first) {
  const std::vector<Path> order =
      in_cutting_order({box(0, 0, 50), box(1, 1, 9, Step::score), box(60, 0, 3), box(2, 2, 8, Step::glue_inside)});
  ASSERT_EQ(order.size(), 4u);
  EXPECT_EQ(order[0].step, Step::score);
  EXPECT_EQ(order[1].step, Step::glue_inside);
  EXPECT_EQ(start_of(order[2]).x, 60);
}

TEST(drawing, no_cuts_and_empty_cuts_have_an_order) {
  EXPECT_TRUE(in_cutting_order({}).empty());
  EXPECT_TRUE(in_cutting_order({Path{Step::cut, {}, {}}, Path{Step::cut, {Move{{1, 1}}}, {}}}).empty());
}
