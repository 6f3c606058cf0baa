// From areas to the few curves of a leaf.
#include "printed.h"

#include "fit/bends.h"
#include "leaf/contour.h"
#include "traced/clean.h"
#include "traced/curves.h"
#include "traced/halves.h"
#include "traced/traced.h"

#include <gtest/gtest.h>

namespace fanwright::traced {
namespace {

using namespace fanwright::traced::testing;

std::string svg(const std::string& body) {
  return "<svg xmlns='http://www.w3.org/2000/svg' width='120mm' height='160mm' viewBox='0 0 120 160'>" + body +
         "</svg>";
}

Figure figure_of(const std::string& bytes, const Wishes& wishes = {}) {
  const auto found = silhouettes(bytes, wishes);
  EXPECT_TRUE(std::holds_alternative<Found>(found)) << std::get<std::string>(found);
  return std::holds_alternative<Found>(found) ? std::get<Found>(found).figures.front() : Figure{};
}

Ring box(double left, double right, double bottom, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

TEST(traced, the_side_of_a_bell_takes_ten_points_at_most) {
  const Figure bell = figure_of(svg("<path d='M20 140C30 130 32 110 34 80C36 40 45 20 60 20C75 20 84 40 86 80"
                                    "C88 110 90 130 100 140Z'/>"));
  // Two points belong to the straight foot.
  EXPECT_LE(bell.outline.segments.size() + 1, 10u);
  EXPECT_NEAR(bell.height_mm, 120, 0.05);
  EXPECT_NEAR(bell.width_mm, 80, 0.05);
  EXPECT_LE(bell.tolerance_mm, 0.2);
}

TEST(traced, a_bell_of_many_short_lines_becomes_as_few_curves) {
  const Area body = turned_body(5);
  std::string points;
  for (const Point& p : body.outline)
    points += std::to_string(60 + p.x) + "," + std::to_string(140 - p.z) + " ";
  const Figure figure = figure_of(svg("<polygon points='" + points + "'/>"));
  EXPECT_LE(figure.outline.segments.size() + 1, 12u);
  std::vector<Point> half{{0, 0}};
  for (const Point& p : body.outline)
    if (p.x >= 0)
      half.push_back(p);
  EXPECT_LE(apart(leaf::flatten(figure.outline, 0.005), half), 0.2);
}

TEST(traced, corners_are_told_from_tight_curves) {
  const Smoothness exact;
  EXPECT_EQ(corners_of(box(0, 40, 0, 30), true, exact).size(), 4u);
  const Areas rounded = grown({{box(0, 40, 0, 30), {}}}, 3, Corners::round);
  EXPECT_TRUE(corners_of(rounded.front().outline, true, exact).empty());
  Ring star;
  for (int k = 0; k < 10; ++k) {
    const double angle = k * std::numbers::pi / 5, reach = k % 2 == 0 ? 30 : 14;
    star.push_back({reach * std::cos(angle), reach * std::sin(angle)});
  }
  EXPECT_EQ(corners_of(star, true, exact).size(), 10u);
}

TEST(traced, a_pointed_cut_out_keeps_both_corners_wherever_its_line_begins) {
  const leaf::Contour lens{{-3.2, 0}, {leaf::Quadratic{{0, -3.84}, {3.2, 0}}, leaf::Quadratic{{0, 3.84}, {-3.2, 0}}}};
  const leaf::Ring from_corner = leaf::flatten(lens, 0.001);
  for (std::size_t first = 0; first < from_corner.size(); ++first) {
    leaf::Ring ring = from_corner;
    std::rotate(ring.begin(), ring.begin() + static_cast<std::ptrdiff_t>(first), ring.end());
    EXPECT_EQ(corners_of(ring, true, {}).size(), 2u) << first;
    leaf::Ring smooth = leaf::flatten(smooth_ring(ring, {}), 0.005);
    EXPECT_NEAR(leaf::signed_area(smooth), leaf::signed_area(ring), 0.7) << first;
    ring.push_back(ring.front());
    smooth.push_back(smooth.front());
    EXPECT_LE(apart(smooth, ring), 0.2) << first;
  }
}

TEST(traced, a_small_round_cut_out_stays_round) {
  for (const double radius : {1.2, 2.5, 8.0}) {
    leaf::Ring ring;
    for (int k = 0; k < 90; ++k)
      ring.push_back(
          {30 + radius * std::cos(-k * std::numbers::pi / 45), 50 + radius * std::sin(-k * std::numbers::pi / 45)});
    const leaf::Contour round = smooth_ring(ring, {});
    for (const Point& p : leaf::flatten(round, 0.002))
      EXPECT_NEAR(std::hypot(p.x - 30, p.z - 50), radius, 0.04 * radius);
    EXPECT_GT(fit::tightest_bend(round).radius_mm, 0.75 * radius);
  }
}

TEST(traced, straight_lines_and_corners_stay_exact) {
  const Figure figure = figure_of(svg("<path d='M20 150V60h20V40H50v-20h20v20h10V60h20v90z'/>"));
  EXPECT_EQ(figure.path, "M 0 0 L 40 0 L 40 90 L 20 90 L 20 110 L 10 110 L 10 130 L 0 130");
}

TEST(traced, half_a_drawing_is_known_by_its_straight_side) {
  for (const char* turn : {"", "rotate(5 60 80)", "matrix(-1 0 0 1 120 0)"}) {
    const Figure half = figure_of(
        svg(std::string("<path transform='") + turn + "' d='M60 140H100C90 130 88 110 86 80C84 40 75 20 60 20Z'/>"));
    EXPECT_EQ(half.shown, Shown::half) << turn;
    EXPECT_NEAR(half.height_mm, 120, 0.3) << turn;
    EXPECT_NEAR(half.width_mm, 80, 0.6) << turn;
  }
}

TEST(traced, a_handle_does_not_pull_the_axis) {
  const Figure jug =
      figure_of(svg("<g transform='rotate(-6 60 80)'><path d='M30 140C20 100 20 60 40 20H80C100 60 100 100 90 140Z'/>"
                    "<path fill-rule='evenodd' d='M92 50h20v50h-20zM96 56v38h10v-38z'/></g>"),
                {std::nullopt, std::nullopt, std::nullopt, Shown::whole, Side::left, 0.2});
  EXPECT_NEAR(jug.tilt_deg, 6, 0.3);
  EXPECT_GT(jug.most_asymmetry_mm, 10);
  EXPECT_NEAR(jug.height_mm, 120, 0.3);
  EXPECT_TRUE(jug.cut_outs.empty()) << "the left side has no handle";
}

TEST(traced, figures_come_in_order_of_size) {
  const auto found = silhouettes(svg("<circle cx='20' cy='20' r='10'/><circle cx='80' cy='100' r='30'/>"
                                     "<circle cx='20' cy='80' r='15'/><circle cx='110' cy='10' r='.3'/>"));
  ASSERT_TRUE(std::holds_alternative<Found>(found));
  const auto& figures = std::get<Found>(found).figures;
  ASSERT_EQ(figures.size(), 3u);
  EXPECT_NEAR(figures[0].height_mm, 60, 0.1);
  EXPECT_NEAR(figures[1].height_mm, 30, 0.1);
  EXPECT_NEAR(figures[2].height_mm, 20, 0.1);
  EXPECT_EQ(std::get<Found>(found).notes, std::vector<std::string>{"1 speck was left out."});
}

const Wishes right_side{std::nullopt, std::nullopt, std::nullopt, Shown::found_out, Side::right, 0.2};

TEST(traced, lines_in_pieces_are_joined_and_inner_ones_cut_out) {
  const Figure figure =
      figure_of(svg("<g fill='none' stroke='black'><path d='M20 140V20H60'/><path d='M60.3 20H100V140'/>"
                    "<path d='M99.8 140H20.3'/><circle cx='80' cy='90' r='6'/></g>"),
                right_side);
  EXPECT_NEAR(figure.height_mm, 120, 0.1);
  EXPECT_NEAR(figure.width_mm, 80, 0.1);
  EXPECT_FALSE(figure.cut_outs.empty());
}

TEST(traced, the_mean_lies_half_way_between_the_sides) {
  const Areas skew = {{box(-20, 24, 0, 100), {}}};
  const Areas mean = side_of(skew, Side::mean);
  ASSERT_EQ(mean.size(), 1u);
  EXPECT_NEAR(leaf::bounds(mean.front().outline).right, 22, 0.1);
  EXPECT_NEAR(leaf::bounds(mean.front().outline).height(), 100, 0.1);
  EXPECT_DOUBLE_EQ(leaf::bounds(side_of(skew, Side::right).front().outline).right, 24);
  EXPECT_DOUBLE_EQ(leaf::bounds(side_of(skew, Side::left).front().outline).right, 20);
}

TEST(traced, the_spine_stays_whole_across_a_gap) {
  const Half half = at_spine({Area{box(0, 30, 0, 40), {}}, Area{box(0, 30, 60, 100), {}}}, 0);
  EXPECT_EQ(half.notes.size(), 1u);
  const leaf::Box bounds = leaf::bounds(half.area.outline);
  EXPECT_NEAR(bounds.height(), 100, 1e-9);
  EXPECT_NEAR(area_of(half.added), 4 * 20, 1e-6);
}

TEST(traced, slits_close_hairs_go_and_tips_stay) {
  const Areas body = {{box(0, 40, 0, 80), {}}};
  const Areas slit = {{box(20, 40, 39.9, 40.1), {}}};
  const Areas hair = {{box(40, 55, 20, 20.2), {}}};
  const Areas tip = {{{{40, 60}, {60, 62}, {40, 64}}, {}}};
  const Areas speck = {{box(10, 10.5, 10, 10.5), {}}};
  const Areas drawn_half = without(without(united(united(body, hair), tip), slit), speck);
  ASSERT_EQ(drawn_half.size(), 1u);
  const Cleaned clean = cleaned(drawn_half.front(), 0.5, 0.9, 0.8);
  EXPECT_NEAR(area_of(clean.area), area_of(united(body, tip)), 0.02);
  EXPECT_EQ(clean.notes.size(), 3u);
}

TEST(traced, fine_cut_outs_are_marked) {
  const auto marks = fine_details({box(0, 40, 0, 80), {{{10, 10}, {10, 12}, {12, 12}, {12, 10}}}}).value();
  ASSERT_EQ(marks.size(), 1u);
  EXPECT_NEAR(marks[0].size_mm, 2, 0.05);
  EXPECT_NEAR(marks[0].place.x, 11, 1e-9);
}

TEST(traced, narrow_gaps_are_marked_and_notches_are_not) {
  const Areas body = {{box(0, 40, 0, 80), {}}};
  const Areas gap = {{box(25, 40, 39.6, 40.4), {}}};
  const Areas notch = {{{{40, 15}, {40, 25}, {30, 20}}, {}}};
  const auto marks = fine_details(without(without(body, gap), notch).front()).value();
  ASSERT_EQ(marks.size(), 1u);
  EXPECT_NEAR(marks[0].size_mm, 0.8, 0.15);
  EXPECT_NEAR(marks[0].place.z, 40, 0.1);
}

TEST(traced, inward_curves_tighter_than_a_knife_follows_are_marked_and_corners_are_not) {
  // Quarter circles of radius 0.6 and 3 that turn right, one of 0.6 that turns left: cubic arcs, kappa 0.5523.
  const auto quarter = [](Point from, Point along, Point across, double r) {
    const double k = 0.5523 * r;
    const Point to{from.x + r * (along.x + across.x), from.z + r * (along.z + across.z)};
    return leaf::Cubic{{from.x + k * along.x, from.z + k * along.z}, {to.x - k * across.x, to.z - k * across.z}, to};
  };
  const auto marks_of = [&](Point across, double r) {
    leaf::Contour line{{10, 10}, {leaf::Line{{20, 10}}, quarter({20, 10}, {1, 0}, across, r)}};
    return tight_curves({line});
  };
  const auto tight = marks_of({0, -1}, 0.6);
  ASSERT_EQ(tight.size(), 1u);
  EXPECT_NEAR(tight[0].size_mm, 0.6, 0.02);
  EXPECT_TRUE(marks_of({0, -1}, 3).empty());
  EXPECT_TRUE(marks_of({0, 1}, 0.6).empty()) << "paper's outer corners are no trouble";
  const leaf::Contour notch{{0, 0}, {leaf::Line{{20, 0}}, leaf::Line{{10, 5}}, leaf::Line{{20, 10}}}};
  EXPECT_TRUE(tight_curves({notch}).empty());
}

TEST(traced, a_cut_out_on_one_side_that_the_mean_loses_is_told) {
  const std::string bell = "<path d='M20 140C30 130 32 110 34 80C36 40 45 20 60 20C75 20 84 40 86 80C88 110 90 130 100 "
                           "140Z'/><circle fill='white' cx='74' cy='100' r='5'/>";
  const auto says = [](const Figure& figure) {
    std::string all;
    for (const std::string& sentence : figure.changed)
      all += sentence;
    return all;
  };
  const Figure mean = figure_of(svg(bell));
  EXPECT_TRUE(mean.cut_outs.empty());
  EXPECT_NE(says(mean).find("A cut-out on the right side only was lost"), std::string::npos) << says(mean);
  EXPECT_NEAR(area_of(mean.filled), 25 * std::numbers::pi, 2);
  const Figure right = figure_of(svg(bell), right_side);
  EXPECT_EQ(right.cut_outs.size(), 1u);
  EXPECT_EQ(says(right).find("lost"), std::string::npos);
  const Figure both = figure_of(svg(bell + "<circle fill='white' cx='45.5' cy='100' r='5'/>"));
  EXPECT_EQ(both.cut_outs.size(), 1u);
  EXPECT_EQ(says(both).find("lost"), std::string::npos);
}

} // namespace
} // namespace fanwright::traced
