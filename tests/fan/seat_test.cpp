#include "fan/seat.h"
#include "fan/swept_form.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double deg = 180 / pi;

/// Paper against paper, both 0.2 mm thick: their middles stay this far apart.
constexpr double gap = 0.2;

Seated seated(const Fan& fan, const Body& body, const Seat& place, bool stands = true) {
  const auto result = seat(fan, body, place, stands);
  if (const auto* no = std::get_if<Unseated>(&result)) {
    throw std::runtime_error(no->why.sentence);
  }
  return std::get<Seated>(result);
}

/// Angle of the first side from straight down, outward.
double first_of(const Placed& placed) {
  const Point3& origin = placed.at.origin;
  const Point3 side = minus(placed.at.in_the_round({0, 1, 0}), origin); // it lies along Y
  EXPECT_NEAR(placed.spread.first_side_deg(), 90, 1e-9);
  const double outward = (side[0] * origin[0] + side[1] * origin[1]) / std::hypot(origin[0], origin[1]);
  return std::atan2(outward, -side[2]) * deg;
}

Body cylinder(double radius, double height) { return swept_body({{radius, 0}, {radius, height}}); }

Seat at_point(double below, double rise = 0, double turn = 0) {
  Seat place;
  place.hold = Hold::at_point;
  place.below_neck_mm = below;
  place.rise_deg = rise;
  place.turn_deg = turn;
  return place;
}

// The side creases of a fan that stands out of a cylinder of radius R lie in an upright plane through its axis, at A /
// 2 above and below the horizontal, and half their relief s off the plane. A place at r from the centre is at (R + g +
// r cos(A / 2))^2 + s^2 from the axis, squared, and may not come nearer than R + g.
TEST(seat, a_fan_on_a_cylinder_spreads_until_its_sides_lie_along_it) {
  const double radius = 30;
  const Fan fan = straight_fan(8, 20, 60, 150);
  const Seated found = seated(fan, cylinder(radius, 300), at_point(150));
  const Pleats pleats = std::get<Made>(make(fan)).spread.pleats();
  const auto outside = [&](double spread_deg) {
    const Spread spread(pleats, spread_deg);
    for (int i = 0; i <= 400; ++i) {
      const double v = 60.0 * i / 400;
      const double x = radius + gap + spread.radius_at(v) * std::cos(spread_deg / 2 / deg);
      if (std::hypot(x, spread.relief_at(v) / 2) < radius + gap) {
        return false;
      }
    }
    return true;
  };
  double low = 150, high = 240;
  while (high - low > 1e-4) {
    const double middle = (low + high) / 2;
    (outside(middle) ? low : high) = middle;
  }
  EXPECT_GT(low, 180);
  // Searched to 0.03 degrees; distances are told 0.02 mm short, at 60 mm another 0.02 degrees on either side.
  EXPECT_NEAR(found.most_deg, low, 0.1);
  EXPECT_LE(found.most_deg, low);
  EXPECT_EQ(found.limited_by, Part::body);
  EXPECT_NEAR(found.taken_deg, 150, 1e-9);
  EXPECT_FALSE(found.free_height_mm.has_value());
}

// On a cone of half-angle c the outline leans inward: a fan whose middle rises by e has A / 2 - e below and A / 2 + e
// above the horizontal; its lowest place is the tip of the lower side.
TEST(seat, a_fan_on_a_cone_clears_the_table_by_the_height_of_its_lower_tip) {
  const Body cone = swept_body({{60, 0}, {10, 150}});
  const Fan fan = straight_fan(8, 14, 50, 100);
  const Seated found = seated(fan, cone, at_point(80, 20));
  const Spread spread(std::get<Made>(make(fan)).spread.pleats(), 100);
  // Outward normal of the cone: (150, 50) / |..|, along which the centre stands off by the gap.
  const double centre = 150 - 80 + gap * 50 / std::hypot(150, 50);
  const double tip = centre - spread.outer_radius_mm() * std::sin((50 - 20) / deg);
  ASSERT_TRUE(found.table_clear_mm.has_value());
  EXPECT_NEAR(*found.table_clear_mm, tip - 0.1, 0.025); // half a caliper of its own; told 0.02 short at most
  EXPECT_LE(*found.table_clear_mm, tip - 0.1 + 1e-6);
  EXPECT_FALSE(found.neck_clear_mm.has_value());
}

TEST(seat, a_level_fan_has_its_front_face_up_and_hangs_below_its_plane_by_half_its_relief) {
  const Fan fan = straight_fan(8, 14, 50, 100);
  const Seated found = seated(fan, cylinder(30, 100), at_point(40, 0, 90));
  EXPECT_NEAR(found.fans.front().at.axes[2][2], 1, 1e-12);
  const double relief = found.fans.front().spread.relief_at(0);
  EXPECT_NEAR(*found.table_clear_mm, 60 - relief / 2 - 0.1, 0.025);
}

Body lidded() { return swept_body(lidded_outline()); }

// The last crease stands at first + A from straight down; its tip, R_o from the centre, is at z_0 - R_o cos(first + A)
// and touches the lid at 110 - g. The first pleat lies on the post: its creases are half the relief off the plane to
// either side, so that it may lean in until its middle, half a panel on, is upright.
TEST(seat, a_wing_under_a_lid_spreads_until_its_tip_touches) {
  const Fan fan = straight_fan(8, 20, 45, 100);
  Seat place;
  place.below_neck_mm = 40;
  place.last_on_head = false;
  const Seated found = seated(fan, lidded(), place);
  const Spread& spread = found.fans.front().spread;
  const double first = first_of(found.fans.front());
  EXPECT_LE(first, 0.15);
  EXPECT_GE(first, -0.6 * spread.panel_deg());
  // It could spread further: until 60 - R_o cos(first + most) = 110 - g, R_o and first as at that angle.
  const Spread widest(spread.pleats(), found.most_deg);
  const double touching = std::acos(-(110 - gap - 60) / widest.outer_radius_mm()) * deg;
  EXPECT_NEAR(found.most_deg, touching - first, 0.3);
  EXPECT_EQ(found.limited_by, Part::head);
  ASSERT_TRUE(found.free_height_mm.has_value());
  EXPECT_NEAR(*found.free_height_mm, 50, 1e-6);
  // Spread to 100 its tip stands R_o cos(80) above the seat, and the lid must leave it that and the gap.
  const double wanted = spread.outer_radius_mm() * -std::cos((first + 100) / deg) + gap;
  EXPECT_NEAR(*found.least_free_height_mm, std::max(wanted, 10.0), 0.3);
  EXPECT_NEAR(*found.head_clear_mm, 110 - 60 - wanted, 0.1);
}

/// A post with a neck, 100 to 104 mm high, under a round head of 20 mm radius whose middle is 120 mm high.
constexpr double head_radius = 20, head_middle = 120;
Body headed() {
  std::vector<Station> outline{{20, 0}, {20, 100}};
  const double from = std::asin(12 / head_radius);
  for (int k = 0; k <= 90; ++k) {
    const double angle = from + (pi - from) * k / 90;
    outline.push_back({head_radius * std::sin(angle), head_middle - head_radius * std::cos(angle)});
  }
  return swept_body(outline);
}

// The last crease stands at first + A from straight down, half the relief off the upright plane. A place of it at r
// from the centre, (R, 0, z0), is at (R + r sin, s, z0 - r cos), and may come as near to the middle of a round head as
// its radius and the gap.
TEST(seat, a_last_side_on_a_round_head_is_tangent_to_it) {
  const Fan fan = straight_fan(8, 20, 45, 120);
  Seat place;
  place.below_neck_mm = 15;
  place.last_on_head = true;
  const Seated found = seated(fan, headed(), place);
  const Placed& placed = found.fans.front();
  const double first = first_of(placed), radius = std::hypot(placed.at.origin[0], placed.at.origin[1]);
  const auto clear = [&](double spread_deg) {
    const Spread spread(placed.spread.pleats(), spread_deg);
    const double angle = (first + spread_deg) / deg;
    for (int i = 0; i <= 400; ++i) {
      const double v = 45.0 * i / 400, r = spread.radius_at(v);
      const double out = radius + r * std::sin(angle), up = placed.at.origin[2] - r * std::cos(angle) - head_middle;
      if (std::hypot(out, spread.relief_at(v) / 2, up) < head_radius + gap) {
        return false;
      }
    }
    return true;
  };
  double low = 120, high = 200;
  while (high - low > 1e-4) {
    const double middle = (low + high) / 2;
    (clear(middle) ? low : high) = middle;
  }
  // The head's 90 chords lie up to 0.003 mm inside the round; the first side is laid anew at each angle, within 0.05.
  EXPECT_NEAR(found.taken_deg, low, 0.2);
  EXPECT_EQ(found.limited_by, Part::head);
  EXPECT_GE(std::ranges::count(found.glued, true, &GluedEdge::last_side), 1);
  EXPECT_EQ(found.taken_deg, found.most_deg);
}

// Opened through 180 degrees there are leaf edges from the figure's left over its front to its right, and none behind;
// leaf 1 is the first counter-clockwise, at its right.
TEST(seat, a_piece_that_is_half_open_has_its_seats_in_front_and_at_its_sides) {
  const Body half = body_of(swept_form({{30, 0}, {30, 160}}, 24, 180), 24, paper::Paper{});
  const Fan fan = straight_fan(8, 14, 30, 90);
  for (const double azimuth : {0.0, 60.0, 300.0}) {
    Seat place = at_point(60);
    place.azimuth_deg = azimuth;
    const Seated found = seated(fan, half, place);
    EXPECT_NEAR(std::remainder(found.azimuth_deg - azimuth, 360), 0, 3.75 / 2 + 1e-6) << azimuth;
    ASSERT_EQ(found.glued.size(), 1U);
    // 48 half-panels of 3.75 degrees, the middle of the first 1.875 degrees before the figure's right side.
    const int half_panel = 2 * (found.glued[0].leaf - 1) + found.glued[0].half - 1;
    EXPECT_NEAR(std::remainder(90 - 3.75 * (half_panel + 0.5) - found.azimuth_deg, 360), 0, 1e-6);
    EXPECT_NEAR(found.figure.width_mm, std::max(60.0, found.figure.width_mm), 1e-9);
  }
  Seat behind = at_point(60);
  behind.azimuth_deg = 180;
  const double taken = seated(fan, half, behind).azimuth_deg;
  EXPECT_NEAR(std::abs(std::remainder(taken, 360)), 90 - 3.75 / 2, 1e-6);
  Seat front = at_point(60);
  front.azimuth_deg = 0;
  const Seated found = seated(fan, half, front);
  // Nothing stands behind the axis.
  EXPECT_NEAR(found.figure.depth_mm, 30 + gap + found.fans.front().spread.outer_radius_mm(), 0.1);
  EXPECT_NEAR(found.figure.width_mm, 60, 1e-9);
}

TEST(seat, a_disc_at_a_point_lies_against_the_body_on_its_cover) {
  Fan fan = straight_fan(8, 24, 30, 360);
  Seat place = at_point(80, 0, 90);
  place.rise_deg = -90; // its plane upright, its front outward
  const Seated found = seated(fan, cylinder(60, 160), place);
  const Placed& disc = found.fans.front();
  const double off = std::hypot(disc.at.origin[0], disc.at.origin[1]) - 60;
  EXPECT_GT(off, disc.spread.relief_at(0) / 2 + gap);
  EXPECT_LT(off, disc.spread.relief_at(0) / 2 + gap + 1);
  const double outward = (disc.at.axes[2][0] * disc.at.origin[0] + disc.at.axes[2][1] * disc.at.origin[1]);
  EXPECT_NEAR(outward / std::hypot(disc.at.origin[0], disc.at.origin[1]), 1, 1e-9);
  // Edges of 48 half-panels stand 7.85 mm apart: the cover reaches one or two, no farther than it is wide.
  ASSERT_FALSE(found.glued.empty());
  EXPECT_LE(found.glued.size(), 3U);
  EXPECT_LE(found.glued.front().length_mm, 2 * cover_radius_mm(disc.spread));
  EXPECT_GE(found.glued.front().length_mm, 3);
}

TEST(seat, the_neck_is_the_narrowest_beside_what_it_parts_not_the_waist_below) {
  // A waist of 30 between 50 and 50, and a neck of 16 between 50 and a head of 30.
  const Body body = swept_body({{40, 0}, {50, 60}, {30, 90}, {50, 120}, {16, 150}, {30, 170}, {0, 200}});
  EXPECT_NEAR(body.neck_mm.value(), 150, 1e-9);
}

TEST(seat, a_wing_that_cannot_spread_under_its_lid_is_told_to_sit_lower_or_to_be_smaller) {
  const Fan fan = straight_fan(8, 20, 45, 160);
  Seat place;
  place.below_neck_mm = 25; // 35 mm to the lid; 160 degrees need 50 cos(20) = 47
  const auto result = seat(fan, lidded(), place, true);
  ASSERT_TRUE(std::holds_alternative<Unseated>(result));
  const Unseated& no = std::get<Unseated>(result);
  const auto lower = std::ranges::find(no.remedies, "/seat/below_neck", &SeatChange::where);
  ASSERT_NE(lower, no.remedies.end());
  const Spread spread(std::get<Made>(make(fan)).spread.pleats(), 160);
  // Whole mm; the first side leans in by up to half a panel, 2 degrees, which lowers the tip by up to 0.6 mm.
  const double needed = spread.outer_radius_mm() * std::cos(20 / deg) + gap - 10;
  EXPECT_GE(lower->value, needed - 0.7);
  EXPECT_LE(lower->value, needed + 1);
  EXPECT_NE(no.why.sentence.find("lower"), std::string::npos) << no.why.sentence;
  EXPECT_NE(no.why.sentence.find("mm long"), std::string::npos) << no.why.sentence;
}

TEST(seat, glued_edges_are_those_under_the_first_side_pleat_over_its_whole_length) {
  const Fan fan = straight_fan(10, 20, 45, 100);
  Seat place;
  place.below_neck_mm = 40; // gathered end at 60 mm
  const Seated found = seated(fan, lidded(), place);
  const Pleats& pleats = found.fans.front().spread.pleats();
  ASSERT_FALSE(found.glued.empty());
  // The post's 48 leaf edges stand 20 * 7.5 degrees = 2.6 mm apart; the pleat reaches 5 mm to either side of the middle
  // one. Its corners stand off the round post, by 5^2 / 40 = 0.6 mm.
  EXPECT_GE(found.glued.size(), 3U);
  EXPECT_LE(found.glued.size(), 5U);
  const auto longest = std::ranges::max_element(found.glued, {}, &GluedEdge::length_mm);
  EXPECT_NEAR(longest->to_z_mm, 60 - pleats.inner_radius_mm, 1.3); // the glue bridges 1 mm
  EXPECT_NEAR(longest->from_z_mm, 60 - 45 - pleats.inner_radius_mm, 1.5);
  EXPECT_NEAR(longest->length_mm, longest->to_z_mm - longest->from_z_mm, 1e-6);
  // Counter-clockwise from the seam at the back, the figure's right side comes after a quarter of the 24 leaves.
  for (const GluedEdge& edge : found.glued) {
    EXPECT_GE(edge.leaf, 5);
    EXPECT_LE(edge.leaf, 8);
  }
}

} // namespace
} // namespace fanwright::fan
