#include "oracle.h"
#include "sheets/sheets.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

using namespace fanwright::sheets;
using fanwright::leaf::Point;
using fanwright::leaf::Ring;

namespace {

Sheet a4(double margin = 6, double gap = 2) { return {"A4", {210, 297}, margin, gap}; } // ISO 216

Ring rectangle(double width, double height) { return {{0, 0}, {width, 0}, {width, height}, {0, height}}; }

Ring triangle(double width, double height) { return {{-width / 2, 0}, {width / 2, 0}, {0, height}}; }

Plan plan_of(const Piece& piece, const Sheet& sheet, Turns turns = Turns::upright) {
  const auto result = lay_out(piece, sheet, turns);
  EXPECT_TRUE(std::holds_alternative<Plan>(result));
  return std::holds_alternative<Plan>(result) ? std::get<Plan>(result) : Plan{};
}

std::string refusal_of(const Piece& piece, const Sheet& sheet, Turns turns = Turns::upright) {
  const auto result = lay_out(piece, sheet, turns);
  return std::holds_alternative<Refusal>(result) ? std::get<Refusal>(result).sentence : std::string();
}

/// Between any two pieces of the layout, by the independent library, mm.
double least_distance(const Layout& layout, const Ring& outline) {
  std::vector<Polygon> pieces;
  double least = std::numeric_limits<double>::infinity();
  for (const Placement& placement : layout.placements) {
    Ring ring;
    for (const Point& p : outline)
      ring.push_back(placed(placement, p));
    pieces.emplace_back(ring);
    for (std::size_t i = 0; i + 1 < pieces.size(); ++i)
      least = std::min(least, pieces[i].distance(pieces.back()));
  }
  return least;
}

Ring disc(double diameter) {
  Ring ring;
  for (int i = 0; i < 360; ++i) {
    const double angle = i * std::numbers::pi / 180;
    ring.push_back({diameter / 2 * std::cos(angle), diameter / 2 * std::sin(angle)});
  }
  return ring;
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST(sheets, lays_rectangles_in_a_full_grid) {
  // By hand: 198 x 285 mm usable; 50 + 2 mm gap: 3 across (3 x 50 + 2 x 2 = 154, a fourth needs 206) and 5 up (258).
  const Plan plan = plan_of({"leaf", rectangle(50, 50), 33}, a4());
  EXPECT_EQ(plan.pieces_per_sheet, 15);
  EXPECT_EQ(plan.sheets, 3);
  ASSERT_EQ(plan.layouts.size(), 2u);
  EXPECT_EQ(plan.layouts[0].sheets, 2);
  EXPECT_EQ(plan.layouts[1].placements.size(), 3u);
}

TEST(sheets, whole_sheets_need_no_last_layout) {
  const Plan plan = plan_of({"leaf", rectangle(50, 50), 30}, a4());
  ASSERT_EQ(plan.layouts.size(), 1u);
  EXPECT_EQ(plan.layouts[0].sheets, 2);
}

TEST(sheets, turns_every_second_triangle_upside_down_when_that_holds_more) {
  // Side by side 198 / (60 + 2) gives 3 in a row; head to foot each next one needs about half the width: 5.
  const Plan plan = plan_of({"leaf", triangle(60, 120), 10}, a4());
  EXPECT_EQ(plan.pieces_per_sheet, 10);
  EXPECT_TRUE(std::any_of(plan.layouts[0].placements.begin(), plan.layouts[0].placements.end(),
                          [](const Placement& placement) { return placement.turn_deg == 180; }));
}

TEST(sheets, lays_discs_in_staggered_rows) {
  // 4 by hand: 198 + 2 mm holds one and almost two discs of 102 mm across; side by side at half their height
  // (287 - 102) / 51 + 1 = 4.6.
  EXPECT_EQ(plan_of({"disc", disc(100), 46}, a4()).pieces_per_sheet, 4);
  // 11 by hand: rows of 2 and 1.83 discs wide (287 + 2) / 102; 6 in zigzag along either edge less one.
  EXPECT_EQ(plan_of({"disc", disc(100), 46}, {"A3", {297, 420}, 5, 2}).pieces_per_sheet, 11);
}

TEST(sheets, a_piece_as_large_as_the_usable_area_fits_once) {
  EXPECT_EQ(plan_of({"leaf", rectangle(198, 285), 2}, a4()).sheets, 2);
}

TEST(sheets, refuses_a_leaf_that_does_not_fit_and_names_a_sheet_that_holds_it) {
  const std::string sentence = refusal_of({"leaf", rectangle(220, 280), 10}, a4());
  EXPECT_TRUE(holds(sentence, "220.0 x 280.0 mm")) << sentence;
  EXPECT_TRUE(holds(sentence, "198.0 x 285.0 mm")) << sentence;
  EXPECT_TRUE(holds(sentence, "12x12in would hold it")) << sentence; // 304.8 mm square less 2 x 6 mm: 292.8
}

TEST(sheets, refuses_what_no_sheet_holds_or_what_is_nothing) {
  EXPECT_TRUE(holds(refusal_of({"leaf", rectangle(3000, 3000), 1}, a4()), "no common sheet"));
  EXPECT_FALSE(refusal_of({"leaf", {}, 1}, a4()).empty());
  EXPECT_FALSE(refusal_of({"leaf", rectangle(10, 10), 0}, a4()).empty());
  EXPECT_FALSE(refusal_of({"leaf", rectangle(10, 10), 1}, a4(150)).empty());
}

TEST(sheets, an_outline_of_twenty_thousand_teeth_is_laid_out) {
  Ring saw;
  for (int i = 0; i < 20'000; ++i) {
    const double angle = 2 * std::numbers::pi * i / 20'000, radius = i % 2 == 0 ? 40 : 44;
    saw.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  const Plan plan = plan_of({"saw", saw, 4}, a4(6, 1));
  ASSERT_EQ(plan.layouts.size(), 1u);
  EXPECT_FALSE(fault(plan.layouts[0], {"saw", saw, 4}, a4(6, 1)));
}

TEST(sheets, turns_sideways_only_when_the_grain_allows) {
  const Piece wide{"leaf", rectangle(250, 100), 2};
  EXPECT_TRUE(holds(refusal_of(wide, a4(), Turns::upright), "grain does not let it lie sideways"));
  const Plan plan = plan_of(wide, a4(), Turns::either);
  EXPECT_EQ(plan.layouts[0].placements[0].turn_deg, 90);
  EXPECT_EQ(plan_of(wide, a4(), Turns::sideways).pieces_per_sheet, 1);
}

TEST(sheets, the_check_finds_overlap_inclusion_small_gaps_and_lost_margins) {
  const Piece piece{"leaf", rectangle(50, 50), 2};
  const Sheet sheet = a4();
  EXPECT_FALSE(fault({{{0, 10, 10}, {0, 62, 10}}, 1}, piece, sheet));
  EXPECT_TRUE(fault({{{0, 10, 10}, {0, 61.9, 10}}, 1}, piece, sheet));
  EXPECT_TRUE(fault({{{0, 10, 10}, {0, 40, 10}}, 1}, piece, sheet));
  EXPECT_TRUE(fault({{{0, 10, 10}, {0, 10, 10}}, 1}, piece, sheet));
  EXPECT_TRUE(fault({{{0, 5.9, 10}}, 1}, piece, sheet));
  EXPECT_TRUE(fault({{{180, 210, 100}}, 1}, piece, sheet));
}

RC_GTEST_PROP(sheets, every_star_shaped_piece_is_laid_out_soundly_and_completely, ()) {
  // Stars with deep hollows, about 20 to 90 mm across, on A4.
  const int corners = *rc::gen::inRange(3, 12);
  Ring outline;
  for (int i = 0; i < corners; ++i) {
    const double radius = *rc::gen::inRange(100, 450) / 10.0, angle = 2 * 3.14159265358979 * i / corners;
    outline.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  const Piece piece{"leaf", outline, *rc::gen::inRange(1, 60)};
  const Sheet sheet = a4(*rc::gen::inRange(0, 12), *rc::gen::inRange(0, 6));
  const auto turns = *rc::gen::element(Turns::upright, Turns::sideways, Turns::either);
  const auto result = lay_out(piece, sheet, turns);
  RC_ASSERT(std::holds_alternative<Plan>(result));
  const Plan& plan = std::get<Plan>(result);
  int laid = 0, sheets = 0;
  for (const Layout& layout : plan.layouts) {
    RC_ASSERT(!fault(layout, piece, sheet));
    laid += static_cast<int>(layout.placements.size()) * layout.sheets;
    sheets += layout.sheets;
    RC_ASSERT(least_distance(layout, outline) >= sheet.gap_mm);
    for (const Placement& placement : layout.placements)
      RC_ASSERT(turns == Turns::either || placement.turn_deg % 180 == (turns == Turns::sideways ? 90 : 0));
  }
  RC_ASSERT(laid == piece.count);
  RC_ASSERT(sheets == plan.sheets);
}
