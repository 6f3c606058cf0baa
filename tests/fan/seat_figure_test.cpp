// What fans do to a figure: mirror images in the round, what it stands on.
#include "fan/seat.h"
#include "fan/swept_form.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double deg = 180 / pi;

/// A wing whose feathers are long at its first side and short at its last.
Fan lopsided_wing() {
  Fan fan;
  fan.depth_mm = 8;
  fan.pleats = 16;
  leaf::Subpath path;
  const auto at = [](double azimuth, double reach) {
    return leaf::Point{reach * std::cos(azimuth / deg), reach * std::sin(azimuth / deg)};
  };
  path.start = at(150, 50);
  for (int k = 1; k <= 40; ++k) {
    path.segments.emplace_back(leaf::Line{at(150 - 3.0 * k, 50 - 0.4 * k)});
  }
  fan.edge = DrawnEdge{path};
  return fan;
}

Seated pair_of(const Fan& fan, Hold hold) {
  Seat place;
  place.hold = hold;
  place.below_neck_mm = 20;
  place.azimuth_deg = 100;
  place.pair = true;
  place.rise_deg = 15;
  place.turn_deg = 20;
  const auto result = seat(fan, swept_body(figure_outline(50, 16, 110, 9, 22)), place, true);
  EXPECT_TRUE(std::holds_alternative<Seated>(result)) << std::get<Unseated>(result).why.sentence;
  return std::get<Seated>(result);
}

/// The mirror plane of 24 leaves: the seam is on the wall at one wedge, 7.5 degrees; the front is opposite.
Point3 reflected(const Point3& place) {
  const double front = 187.5 / deg;
  const Point3 across{std::sin(front), -std::cos(front), 0};
  return minus(place, times(2 * dot(place, across), across));
}

double handedness(const Placement& at) { return dot(cross(at.axes[0], at.axes[1]), at.axes[2]); }

double edge_at(const Strip& strip, double x) {
  for (const auto& run : strip.edge) {
    for (std::size_t i = 0; i + 1 < run.size(); ++i) {
      if (x >= run[i].x && x <= run[i + 1].x && run[i + 1].x > run[i].x) {
        return run[i].z + (x - run[i].x) / (run[i + 1].x - run[i].x) * (run[i + 1].z - run[i].z);
      }
    }
  }
  return -1;
}

/// Farthest that the cut edge of `left`, as it is cut and then placed, is from the mirror image of that of `right`.
double mismatch_mm(const Placed& right, const Placed& left) {
  double farthest = 0;
  const double length = right.strip.length_mm();
  for (int i = 0; i <= 400; ++i) {
    const double x = length * i / 400;
    const Point3 one = right.at.in_the_round(right.spread.place({x, edge_at(right.strip, x)}));
    const double turned = length - x;
    const Point3 other = left.at.in_the_round(left.spread.place({turned, edge_at(left.strip, turned)}));
    farthest = std::max(farthest, distance(reflected(one), other));
  }
  return farthest;
}

TEST(seat_figure, wings_of_a_pair_are_mirror_images_in_the_round) {
  for (const Hold hold : {Hold::along_edge, Hold::at_point}) {
    const Seated found = pair_of(lopsided_wing(), hold);
    ASSERT_EQ(found.fans.size(), 2U);
    // Paper is moved, never turned inside out: both motions are rigid and right-handed.
    EXPECT_NEAR(handedness(found.fans[0].at), 1, 1e-9);
    EXPECT_NEAR(handedness(found.fans[1].at), 1, 1e-9);
    EXPECT_LT(mismatch_mm(found.fans[0], found.fans[1]), 1e-6);
    // The first side is folded to the body on the strip of either hand.
    EXPECT_FALSE(found.fans[0].strip.turned);
    EXPECT_TRUE(found.fans[1].strip.turned);
  }
}

TEST(seat_figure, two_wings_of_one_hand_are_no_pair) {
  Seated found = pair_of(lopsided_wing(), Hold::along_edge);
  found.fans[1].strip = found.fans[0].strip;
  EXPECT_GT(mismatch_mm(found.fans[0], found.fans[1]), 5);
}

TEST(seat_figure, leaf_edges_glued_to_a_pair_lie_alike_from_the_seam_either_way) {
  const Seated found = pair_of(lopsided_wing(), Hold::along_edge);
  double right = 0, left = 0;
  int sum_right = 0, sum_left = 0;
  const std::size_t half = found.glued.size() / 2;
  ASSERT_EQ(found.glued.size() % 2, 0U);
  for (std::size_t i = 0; i < found.glued.size(); ++i) {
    const GluedEdge& edge = found.glued[i];
    (i < half ? right : left) += edge.length_mm;
    // Of 24 leaves leaf n, first half, mirrors leaf 25 - n, second half: both are 2 n - 1 halves from the seam.
    const int from_seam = 2 * (edge.leaf - 1) + edge.half;
    (i < half ? sum_right : sum_left) += i < half ? from_seam : 49 - from_seam;
  }
  EXPECT_NEAR(right, left, 1e-6);
  EXPECT_EQ(sum_right, sum_left);
}

TEST(seat_figure, width_of_a_figure_with_level_wings_is_that_of_their_tips) {
  // Straight out to both sides of a post, upright plane: the farthest place is a crease's tip, R_o from the centre.
  const Fan fan = straight_fan(8, 12, 50, 90);
  Seat place;
  place.hold = Hold::at_point;
  place.below_neck_mm = 80;
  place.azimuth_deg = 90;
  place.pair = true;
  const auto result = seat(fan, swept_body({{30, 0}, {30, 160}}), place, true);
  ASSERT_TRUE(std::holds_alternative<Seated>(result));
  const Seated& found = std::get<Seated>(result);
  const double reach = 30 + 0.2 + found.fans.front().spread.outer_radius_mm();
  // The nearest leaf edge is up to 3.75 degrees off the side.
  EXPECT_LE(found.figure.width_mm, 2 * reach);
  EXPECT_GE(found.figure.width_mm, 2 * reach * std::cos(3.76 / deg));
  EXPECT_NEAR(found.figure.height_mm, 160, 1e-9);
}

/// A post of radius 40 whose centre of mass is 120 mm high.
Body post(int leaves) { return swept_body({{40, 0}, {40, 240}}, leaves); }

Balance with_fans(const Body& body, double grammage, bool pair, double azimuth) {
  Fan fan = straight_fan(8, 12, 50, 90);
  fan.paper.grammage_gsm = grammage;
  Seat place;
  place.hold = Hold::at_point;
  place.below_neck_mm = 120;
  place.azimuth_deg = azimuth;
  place.pair = pair;
  const auto result = seat(fan, body, place, true);
  return std::get<Seated>(result).figure.balance.value();
}

// Stability, closed formulas: theta = atan(d / z); r 40, z 120: 18.435 degrees; feet at 12 points stand in a polygon of
// in-radius 40 cos 15 = 38.637: 17.847.
TEST(seat_figure, tip_over_angle_of_a_body_with_weightless_fans_is_that_of_the_body) {
  const Balance twelve = with_fans(post(6), 1e-9, true, 90);
  EXPECT_NEAR(twelve.centre[2], 120, 1e-6);
  EXPECT_NEAR(twelve.reach_mm, 38.637, 0.001);
  EXPECT_NEAR(twelve.tip_deg, 17.847, 0.001);
  const Balance many = with_fans(post(180), 1e-9, true, 90);
  EXPECT_NEAR(many.tip_deg, 18.435, 0.001);
}

// One fan of mass m with its own centre at distance x draws the whole by m x / (M + m) to its side: moments add.
TEST(seat_figure, one_fan_draws_the_mass_to_its_side_and_two_do_not) {
  const Body body = post(180);
  const Balance one = with_fans(body, 160, false, 90);
  const double fan_g = one.mass_g - body.mass_g;
  // 24 panels of 8 x 50 and a flap of 0.8 x 8 x 50 mm at 160 g/m2: 1.587 g.
  EXPECT_NEAR(fan_g, (24 * 8 * 50 + 6.4 * 50) * 160e-6, 1e-9);
  // 360 half-panels of 40 x 240 mm.
  EXPECT_NEAR(body.mass_g, 360 * 40 * 240 * 160e-6, 1e-6);
  const double drawn = std::hypot(one.centre[0], one.centre[1]);
  // A flat sector of 90 degrees, 50 mm: 2/3 R sin(45) / (pi / 4) = 30.01 mm from its centre; pleats come nearer at the
  // gathered end and their flap lies on the side, so within a tenth.
  EXPECT_NEAR(drawn, fan_g * (40.2 + 30.01) / one.mass_g, 0.1 * drawn);
  EXPECT_NEAR(one.reach_mm, 40 - drawn, 0.05);
  const Balance two = with_fans(body, 160, true, 90);
  EXPECT_NEAR(two.mass_g, body.mass_g + 2 * fan_g, 1e-9);
  // Side by side they balance left and right; the nearest edge may stand a little before or behind the side.
  EXPECT_LT(std::hypot(two.centre[0], two.centre[1]), 0.05 * drawn);
}

} // namespace
} // namespace fanwright::fan
