// Fans pushed in between leaves, and fans on a form that was solved for.
#include "fan/seat.h"
#include "fan/swept_form.h"
#include "opened/panels.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fanwright::fan {
namespace {

Seat in_cell(double below, double depth) {
  Seat place;
  place.hold = Hold::in_cell;
  place.below_neck_mm = below;
  place.depth_mm = depth;
  return place;
}

// Eight leaves of 60 mm stand in the middle of wedges of 22.5 degrees, so each wall has a flat sheet at f = 11.25
// degrees to either side. A place at r from the axis and s off the wall is r sin f - s cos f from the nearer one. The
// pleats are 6 mm deep: their creases stand up to 3 mm off the wall.
TEST(seat_cell, a_fan_fits_into_a_cell_as_far_as_its_pleats_clear_both_leaves) {
  const Body body = swept_body({{60, 0}, {60, 160}}, 8);
  const Fan fan = straight_fan(6, 14, 50, 90);
  const auto shallow = seat(fan, body, in_cell(80, 10), true);
  ASSERT_TRUE(std::holds_alternative<Seated>(shallow)) << std::get<Unseated>(shallow).why.sentence;
  EXPECT_EQ(std::get<Seated>(shallow).glued.size(), 2U);
  const auto deep = seat(fan, body, in_cell(80, 55), true);
  ASSERT_TRUE(std::holds_alternative<Unseated>(deep));
  const auto& remedies = std::get<Unseated>(deep).remedies;
  const auto less = std::ranges::find(remedies, "/seat/depth", &SeatChange::where);
  ASSERT_NE(less, remedies.end());
  // Innermost are the side creases at the gathered end, r_i cos 45 out from the centre.
  const double f = std::numbers::pi / 16;
  const Spread spread = std::get<Made>(make(fan)).spread;
  const double least = (0.2 + spread.relief_at(0) / 2 * std::cos(f)) / std::sin(f);
  const double centre = least - spread.radius_at(0) * std::cos(std::numbers::pi / 4);
  EXPECT_NEAR(60 - less->value, centre, 1.2); // whole mm, and the sheet's own lie
}

TEST(seat_cell, seats_on_a_solved_form_stay_clear_of_its_sheets) {
  const auto opened = opened::open(opened::small_panel());
  ASSERT_TRUE(std::holds_alternative<opened::Form>(opened));
  const auto& form = std::get<opened::Form>(opened);
  const Body body = body_of(form, 24, paper::Paper{});
  EXPECT_NEAR(body.mass_g, 48 * 40 * 60 * 160e-6, 0.02 * body.mass_g); // the sheet stretches a little
  Seat place = in_cell(form.height_mm / 2, 0);
  place.hold = Hold::at_point;
  const auto result = seat(straight_fan(6, 10, 25, 80), body, place, true);
  ASSERT_TRUE(std::holds_alternative<Seated>(result)) << std::get<Unseated>(result).why.sentence;
  const Placed& placed = std::get<Seated>(result).fans.front();
  double nearest = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= 40; ++i) {
    for (int j = 0; j <= 10; ++j) {
      const Point3 at = placed.at.in_the_round(placed.spread.place({i * 3.0, j * 2.5}));
      nearest = std::min(nearest, body.sheets->distance(at, 10));
    }
  }
  EXPECT_GE(nearest, 0.2);
  EXPECT_LT(nearest, 8); // it does sit on the body
}

} // namespace
} // namespace fanwright::fan
