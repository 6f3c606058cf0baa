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

/// A form that was solved for: half-panels of 40 x 60 mm.
const Body& solved_body() {
  static const Body body = [] {
    const auto opened = opened::open(opened::small_panel());
    EXPECT_TRUE(std::holds_alternative<opened::Form>(opened));
    return body_of(std::get<opened::Form>(opened), 24, paper::Paper{});
  }();
  return body;
}

/// Nearest that a fan of panels 6 mm deep comes to any sheet.
double nearest_sheet(const Body& body, const Placed& placed) {
  const Pleats& pleats = placed.spread.pleats();
  double nearest = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= 4 * pleats.panels; ++i) {
    for (int j = 0; j <= 12; ++j) {
      const Point3 at =
          placed.at.in_the_round(placed.spread.place({i * pleats.depth_mm / 4, pleats.length_mm * j / 12}));
      nearest = std::min(nearest, body.sheets->distance(at, 10));
    }
  }
  return nearest;
}

TEST(seat_cell, seats_on_a_solved_form_stay_clear_of_its_sheets) {
  const Body& body = solved_body();
  EXPECT_NEAR(body.mass_g, 48 * 40 * 60 * 160e-6, 0.02 * body.mass_g); // the sheet stretches a little
  Seat point = in_cell(body.top_mm / 2, 0), edge = point, cell = in_cell(body.top_mm / 2, 2);
  point.hold = Hold::at_point;
  edge.hold = Hold::along_edge;
  edge.below_neck_mm = body.top_mm / 3;
  for (const auto& [place, depth] : {std::pair{point, 6.0}, {edge, 6.0}, {cell, 3.0}}) {
    const auto result = seat(straight_fan(depth, 10, 25, 80), body, place, true);
    ASSERT_TRUE(std::holds_alternative<Seated>(result)) << std::get<Unseated>(result).why.sentence;
    const Seated& found = std::get<Seated>(result);
    const double nearest = nearest_sheet(body, found.fans.front());
    // Creases are followed to 0.002 mm by straight stretches.
    EXPECT_GE(nearest, 0.2 - 0.002);
    EXPECT_LT(nearest, 8); // it does sit on the body
    EXPECT_FALSE(found.glued.empty());
  }
}

TEST(seat_cell, leaf_edges_told_to_be_glued_do_lie_at_the_first_pleat) {
  const Body& body = solved_body();
  Seat place = in_cell(body.top_mm / 3, 0);
  place.hold = Hold::along_edge;
  const auto result = seat(straight_fan(6, 10, 25, 80), body, place, true);
  ASSERT_TRUE(std::holds_alternative<Seated>(result)) << std::get<Unseated>(result).why.sentence;
  const Seated& found = std::get<Seated>(result);
  const Placed& placed = found.fans.front();
  for (const GluedEdge& edge : found.glued) {
    // Seam at the wall between wedges 0 and 1: leaf n fills wedges 2 n - 1 and 2 n.
    const int wedge = (2 * (edge.leaf - 1) + edge.half) % 48;
    const double middle_z = (edge.from_z_mm + edge.to_z_mm) / 2;
    const auto point = std::ranges::min_element(
        body.edge, {}, [&](const LeafEdgePoint& p) { return std::abs(p.flat.z - middle_z) + 1e3 * (p.flat.x < 1); });
    const Point3 on_edge = body.in_wedge(wedge, point->place);
    double nearest = std::numeric_limits<double>::infinity();
    for (int i = 0; i <= 24; ++i) {
      for (int j = 0; j <= 100; ++j) {
        nearest = std::min(nearest, distance(on_edge, placed.at.in_the_round(placed.spread.place({i / 4.0, j / 4.0}))));
      }
    }
    EXPECT_LE(nearest, 0.2 + 1.0 + 0.3) << edge.leaf << "/" << edge.half; // gap, glue, spacing of points
  }
}

} // namespace
} // namespace fanwright::fan
