#include "drawing/drawing.h"
#include "drawing/words.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <variant>
#include <vector>

using namespace fanwright::drawing;

namespace {

/// Every point of the page's paths.
std::vector<Point> points_of(const Page& page) {
  std::vector<Point> points;
  for (const Item& item : page.items)
    if (const Path* path = std::get_if<Path>(&item))
      for (const Segment& segment : path->segments)
        std::visit(
            [&](const auto& s) {
              if constexpr (requires { s.to; })
                points.push_back(s.to);
            },
            segment);
  return points;
}

std::vector<std::string> words_on(const Page& page) {
  std::vector<std::string> words;
  for (const Item& item : page.items)
    if (const Text* text = std::get_if<Text>(&item))
      words.push_back(text->words);
  return words;
}

} // namespace

TEST(drawing, four_inches_are_exactly_101_6_mm_in_eighths) {
  // International yard and pound agreement (1959): 1 in = 25.4 mm exactly.
  Page page{210, 297, {}};
  add_inch_ruler(page, {20, 50}, 4);
  const Path& line = std::get<Path>(page.items.front());
  EXPECT_DOUBLE_EQ(std::get<Line>(line.segments.at(1)).to.x - 20, 101.6);
  const Path& ticks = std::get<Path>(page.items.back());
  ASSERT_EQ(ticks.segments.size(), 2u * (4 * 8 + 1));
  for (std::size_t i = 0; i <= 32; ++i)
    EXPECT_DOUBLE_EQ(std::get<Move>(ticks.segments.at(2 * i)).to.x, 20 + 3.175 * static_cast<double>(i));
  EXPECT_EQ(words_on(page), (std::vector<std::string>{"0", "1", "2", "3", "4 in"}));
  for (const Point& point : points_of(page))
    EXPECT_TRUE(point.y <= 50 && point.y >= 50 - 5.5);
}

TEST(drawing, a_square_has_its_side_and_says_it) {
  Page page{210, 297, {}};
  add_square(page, {30, 40}, 50);
  const std::vector<Point> points = points_of(page);
  ASSERT_EQ(points.size(), 4u);
  for (const Point& point : points) {
    EXPECT_TRUE(point.x == 30 || point.x == 80);
    EXPECT_TRUE(point.y == 40 || point.y == 90);
  }
  EXPECT_EQ(words_on(page).front(), "50 \xc3\x97 50 mm");
}

TEST(drawing, a_squares_words_stay_inside_whatever_its_side) {
  for (const double side : {5.0, 10.0, 25.4, 50.0, 150.0}) {
    Page page{210, 297, {}};
    add_square(page, {0, 0}, side);
    for (const Item& item : page.items)
      if (const Text* text = std::get_if<Text>(&item)) {
        EXPECT_LE(words_width_mm(text->words, text->size_mm), side);
        EXPECT_LT(text->baseline.y, side);
      }
  }
}

TEST(drawing, every_measure_is_drawn_with_a_line_that_prints) {
  // ISO 128-2: the thinnest line is 0.13 mm.
  Page page{210, 297, {}};
  add_ruler(page, {20, 60}, 100);
  add_inch_ruler(page, {20, 59}, 4);
  add_square(page, {140, 20}, 50);
  page.items.push_back(hatched(Step::glue_inside, {{0, 0}, {10, 0}, {10, 4}}, 45, 1));
  for (const Item& item : page.items)
    if (const Path* path = std::get_if<Path>(&item)) {
      EXPECT_GE(path->pen.width_mm, 0.13);
    }
  for (const Step step : all_steps)
    EXPECT_GE(usual_pen(step).width_mm, 0.13);
}
