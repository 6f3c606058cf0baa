#include "drawing/bulged_line.h"
#include "drawing/cut_dashes.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

using namespace fanwright::drawing;

namespace {

Point start_of(const Path& path) { return std::get<Move>(path.segments.front()).to; }
Point end_of(const Path& path) {
  return std::visit(
      [](const auto& s) {
        if constexpr (requires { s.to; })
          return s.to;
        else
          return Point{};
      },
      path.segments.back());
}

double length_of(const Path& path) {
  double length = 0;
  for (const BulgedLine& line : bulged_lines(path.segments))
    for (std::size_t i = 0; i + 1 < line.vertices.size(); ++i)
      length += arc_length_mm(line.vertices[i], line.vertices[i + 1].at);
  return length;
}

} // namespace

TEST(drawing, a_line_becomes_dashes_with_whole_ends) {
  // 100 mm, dash 4, gap 1.5: 18 periods of 5.5556; dashes of 4.0556, 0.75 mm of paper at the ends.
  const auto dashes = cut_dashes(polyline(Step::score, {{10, 20}, {10, 120}}, false), 4, 1.5);
  ASSERT_EQ(dashes.size(), 18u);
  EXPECT_NEAR(start_of(dashes.front()).y, 20.75, 1e-9);
  EXPECT_NEAR(end_of(dashes.back()).y, 119.25, 1e-9);
  for (std::size_t i = 0; i < dashes.size(); ++i) {
    EXPECT_EQ(dashes[i].step, Step::perforate);
    EXPECT_TRUE(dashes[i].pen.dash_mm.empty());
    EXPECT_NEAR(end_of(dashes[i]).y - start_of(dashes[i]).y, 100.0 / 18 - 1.5, 1e-9);
    EXPECT_EQ(start_of(dashes[i]).x, 10);
  }
}

TEST(drawing, dashes_of_an_arc_lie_on_it) {
  const Path arc{Step::score, {Move{{30, 0}}, Arc{30, 30, 0, false, true, {-30, 0}}}, {}};
  const auto dashes = cut_dashes(arc, 5, 2);
  EXPECT_EQ(dashes.size(), 13u); // pi 30 / 7 = 13.46
  for (const Path& dash : dashes) {
    EXPECT_NEAR(std::hypot(start_of(dash).x, start_of(dash).y), 30, 1e-9);
    EXPECT_NEAR(std::hypot(end_of(dash).x, end_of(dash).y), 30, 1e-9);
    const Arc& part = std::get<Arc>(dash.segments.at(1));
    EXPECT_NEAR(part.radius_x, 30, 1e-9);
    EXPECT_TRUE(part.sweep);
    EXPECT_NEAR(length_of(dash), 30 * std::numbers::pi / 13 - 2, 1e-9);
  }
}

TEST(drawing, a_dash_goes_round_a_corner) {
  const auto dashes = cut_dashes(polyline(Step::score, {{0, 0}, {3, 0}, {3, 3}}, false), 5, 1);
  ASSERT_EQ(dashes.size(), 1u);
  EXPECT_EQ(dashes[0].segments.size(), 3u);
  EXPECT_NEAR(length_of(dashes[0]), 5, 1e-9);
}

TEST(drawing, short_lines_get_one_shorter_dash_or_none) {
  const auto line = [](double length) { return polyline(Step::score, {{0, 0}, {length, 0}}, false); };
  ASSERT_EQ(cut_dashes(line(4), 5, 1).size(), 1u);
  EXPECT_NEAR(length_of(cut_dashes(line(4), 5, 1)[0]), 3, 1e-9);
  EXPECT_TRUE(cut_dashes(line(1), 5, 1).empty());
  EXPECT_TRUE(cut_dashes(line(10), 0, 1).empty());
  EXPECT_TRUE(cut_dashes(line(10), 2, -1).empty());
  EXPECT_TRUE(cut_dashes(line(10), std::numeric_limits<double>::quiet_NaN(), 1).empty());
  EXPECT_TRUE(cut_dashes(Path{Step::score, {}, {}}, 2, 1).empty());
  EXPECT_EQ(cut_dashes(line(1e9), 1e-3, 1e-3).size(), 10000u);
}

RC_GTEST_PROP(drawing, dashes_and_gaps_fill_any_curve, ()) {
  const auto number = [] { return *rc::gen::inRange(-1000, 1000) / 10.0; };
  const Path curve{Step::score,
                   {Move{{number(), number()}}, Cubic{{number(), number()}, {number(), number()}, {number(), number()}},
                    Line{{number(), number()}}},
                   {}};
  const double dash = *rc::gen::inRange(1, 100) / 10.0, gap = *rc::gen::inRange(0, 50) / 10.0;
  const double whole = length_of(curve);
  const auto dashes = cut_dashes(curve, dash, gap);
  RC_PRE(whole > dash + gap);
  double sum = 0;
  for (const Path& path : dashes) {
    const double length = length_of(path);
    // Subpaths shorter than 1e-6 mm are dropped on the way, at each of a few hundred joints.
    RC_ASSERT(length > dash - 1e-3 && length < 2 * dash + gap + 1e-3);
    sum += length;
  }
  RC_ASSERT(std::abs(sum + gap * static_cast<double>(dashes.size()) - whole) <
            1e-3 * static_cast<double>(dashes.size()));
}
