#include "design/design.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <fstream>
#include <string>
#include <tuple>

namespace fanwright::design {
namespace {

using nlohmann::json;

const json& verdicts() {
  static const json file = json::parse(std::ifstream(FANWRIGHT_SOURCE_DIR "/tests/design/verdicts.json"));
  return file;
}

std::string patched(const json& patch) {
  json design = verdicts()["base"];
  design.merge_patch(patch);
  return design.dump();
}

Design accepted(const json& patch) {
  auto parsed = parse(patched(patch));
  if (const auto* refusal = std::get_if<Refusal>(&parsed)) {
    ADD_FAILURE() << patch << " was refused: " << refusal->where << ": " << refusal->sentence;
    Design none;
    none.sizes.resize(1);
    return none;
  }
  return std::get<Design>(std::move(parsed));
}

TEST(design, accepts_what_the_schema_accepts) {
  for (const json& verdict : verdicts()["accepted"]) {
    accepted(verdict["patch"]);
  }
}

TEST(design, refuses_what_the_schema_refuses_and_says_where) {
  for (const json& verdict : verdicts()["refused"]) {
    const auto parsed = parse(patched(verdict["patch"]));
    const auto* refusal = std::get_if<Refusal>(&parsed);
    ASSERT_NE(refusal, nullptr) << verdict["patch"];
    EXPECT_EQ(refusal->where, verdict["where"].get<std::string>()) << refusal->sentence;
    EXPECT_TRUE(refusal->sentence.ends_with('.')) << refusal->sentence;
    EXPECT_EQ(refusal->sentence.find('\n'), std::string::npos) << refusal->sentence;
  }
}

TEST(design, reads_every_key_of_the_base_design) {
  const Design design = accepted(json::object());
  EXPECT_EQ(design.title, "Pear");
  EXPECT_EQ(design.silhouette_path, "M 0 0 H 60 V 120 H 0");
  EXPECT_EQ(design.shows, Shows::flat);
  EXPECT_EQ(design.units_to_mm, 1.0);
  ASSERT_EQ(design.sizes.size(), 2U);
  const Size& small = design.sizes[0];
  EXPECT_EQ(small.name, "small");
  EXPECT_EQ(small.where, "/sizes/0");
  EXPECT_EQ(small.height_mm, 120.0);
  EXPECT_EQ(small.leaves, 36);
  EXPECT_EQ(design.sizes[1].leaves, 46);
  const auto& rows = std::get<EvenRows>(small.rows);
  EXPECT_EQ(std::tuple(rows.count, rows.first, rows.width_mm, rows.spine_gap_mm, rows.edge_gap_mm),
            std::tuple(11, Side::inside, 3.0, 3.0, 3.0));
  EXPECT_EQ(small.sheet.name, "A4");
  EXPECT_EQ(small.sheet.size.width_mm, 210);
}

TEST(design, turns_stiffness_into_modulus) {
  // ISO 5628: Sb = E t^3 / 12; 3.0 mN m at 0.2 mm is 4500 MPa.
  const paper::Paper paper = accepted(json::object()).sizes[0].paper;
  EXPECT_NEAR(paper.modulus_along_mpa, 4500, 1e-9);
  EXPECT_NEAR(paper.modulus_across_mpa, 1950, 1e-9);
}

TEST(design, takes_one_modulus_for_both_ways) {
  const auto paper =
      accepted({{"paper", {{"stiffness", nullptr}, {"modulus", 3000}, {"poisson", 0.3}}}}).sizes[0].paper;
  EXPECT_EQ(paper.modulus_along_mpa, 3000);
  EXPECT_EQ(paper.modulus_across_mpa, 3000);
  EXPECT_EQ(paper.poisson, 0.3);
}

TEST(design, fills_in_typical_paper) {
  const auto paper =
      accepted({{"paper", {{"grammage", 200}, {"caliper", nullptr}, {"stiffness", nullptr}}}}).sizes[0].paper;
  const auto typical = paper::typical_paper(200);
  EXPECT_EQ(paper.caliper_mm, typical.caliper_mm);
  EXPECT_EQ(paper.modulus_along_mpa, typical.modulus_along_mpa);
}

TEST(design, without_sizes_is_made_as_drawn) {
  const Design design = accepted({{"sizes", nullptr}});
  ASSERT_EQ(design.sizes.size(), 1U);
  EXPECT_EQ(design.sizes[0].name, "as drawn");
  EXPECT_EQ(design.sizes[0].where, "");
  EXPECT_FALSE(design.sizes[0].height_mm.has_value());
}

TEST(design, a_size_replaces_only_what_it_gives) {
  const json size = {{"name", "s"}, {"rows", {{"width", 2}}}, {"sheet", {{"gap", 1}}}, {"paper", {{"caliper", 0.21}}}};
  const Size resolved = accepted({{"sizes", {size}}, {"rows", {{"count", 7}}}, {"sheet", {{"size", "A3"}}}}).sizes[0];
  EXPECT_EQ(std::get<EvenRows>(resolved.rows).count, 7);
  EXPECT_EQ(std::get<EvenRows>(resolved.rows).width_mm, 2);
  EXPECT_EQ(resolved.sheet.name, "A3");
  EXPECT_EQ(resolved.sheet.gap_mm, 1);
  EXPECT_EQ(resolved.paper.caliper_mm, 0.21);
  EXPECT_NEAR(resolved.paper.modulus_along_mpa, 4500, 1e-9);
}

TEST(design, rows_that_place_themselves_leave_to_the_glue_what_is_not_given) {
  json file = verdicts()["base"];
  file["rows"] = {{"count", "auto"}, {"look", "dense"}, {"first", "between"}, {"edge_gap", 4}};
  file["sizes"] = {{{"name", "family"}},
                   {{"name", "open"}, {"rows", {{"look", "open"}, {"width", 2.5}}}},
                   {{"name", "nine"}, {"rows", {{"count", 9}}}}};
  const auto design = std::get<Design>(parse(file.dump()));
  const auto& family = std::get<AutoRows>(design.sizes[0].rows);
  EXPECT_EQ(std::tuple(family.look, family.first, family.width_mm.has_value(), family.spine_gap_mm.has_value(),
                       family.edge_gap_mm.value_or(0)),
            std::tuple(Look::dense, Side::between, false, false, 4.0));
  const auto& open = std::get<AutoRows>(design.sizes[1].rows);
  EXPECT_EQ(std::tuple(open.look, open.width_mm.value_or(0), open.edge_gap_mm.value_or(0)),
            std::tuple(Look::open, 2.5, 4.0));
  const auto& nine = std::get<EvenRows>(design.sizes[2].rows);
  EXPECT_EQ(std::tuple(nine.count, nine.first, nine.width_mm, nine.edge_gap_mm),
            std::tuple(9, Side::between, 3.0, 4.0));
}

TEST(design, a_look_in_a_size_turns_a_family_of_even_rows_to_placed_ones) {
  const json size = {{"name", "s"}, {"rows", {{"look", "open"}}}};
  const auto design = accepted({{"sizes", {size}}});
  const auto& rows = std::get<AutoRows>(design.sizes[0].rows);
  EXPECT_EQ(rows.look, Look::open);
  EXPECT_EQ(rows.width_mm.value_or(0), 3.0) << "the family gives it";
}

TEST(design, refuses_a_look_beside_a_count_and_says_what_to_do) {
  const auto parsed = parse(patched({{"rows", {{"count", 9}, {"look", "open"}}}}));
  EXPECT_NE(std::get<Refusal>(parsed).sentence.find("\"count\": \"auto\""), std::string::npos);
}

TEST(design, a_size_with_its_own_grammage_has_a_paper_of_its_own_but_the_same_grain_and_core) {
  const json size = {{"name", "s"}, {"paper", {{"grammage", 120}}}};
  const auto paper =
      accepted({{"sizes", {size}}, {"paper", {{"grain", "across spine"}, {"core", "white"}}}}).sizes[0].paper;
  EXPECT_EQ(paper.caliper_mm, paper::typical_paper(120).caliper_mm);
  EXPECT_EQ(paper.modulus_along_mpa, paper::typical_paper(120).modulus_along_mpa);
  EXPECT_EQ(paper.grain, paper::Grain::across_spine);
  EXPECT_EQ(paper.core, paper::Core::white);
}

TEST(design, reads_inches_as_inches) {
  const json patch = {{"units", "in"},
                      {"paper", {{"caliper", 0.01}}},
                      {"rows",
                       {{{"side", "inside"}, {"from", {0.5, 1}}, {"to", {2, 1}}, {"width", 0.125}},
                        {{"side", "between"}, {"from", {0.5, 2}}, {"to", {2, 2}}, {"width", 0.125}}}},
                      {"sheet", {{"size", {{"width", 12}, {"height", 11}}}, {"margin", 0.25}, {"gap", 0.1}}},
                      {"sizes", {{{"name", "six"}, {"height", 6}}}}};
  const Design design = accepted(patch);
  const Size& size = design.sizes[0];
  constexpr double rounding = 1e-9; // an inch is exactly 25.4 mm
  EXPECT_EQ(design.units_to_mm, 25.4);
  EXPECT_NEAR(*size.height_mm, 152.4, rounding);
  EXPECT_NEAR(size.paper.caliper_mm, 0.254, rounding);
  EXPECT_NEAR(size.sheet.margin_mm, 6.35, rounding);
  EXPECT_NEAR(size.sheet.size.width_mm, 279.4, rounding) << "the shorter side is the width";
  const auto& row = std::get<std::vector<ListedRow>>(size.rows)[0];
  EXPECT_NEAR(row.from_x_mm, 12.7, rounding);
  EXPECT_NEAR(row.to_x_mm, 50.8, rounding);
  EXPECT_NEAR(row.from_z_mm, 25.4, rounding);
  EXPECT_NEAR(row.width_mm, 3.175, rounding);
}

TEST(design, reads_how_the_piece_is_made) {
  const Making making = accepted({{"making",
                                   {{"score", {{"dash", 3}, {"gap", 1}}},
                                    {"marks", "nicks"},
                                    {"cutting", "by machine"},
                                    {"display", "hangs"},
                                    {"glue", "paste"},
                                    {"bead", 0.8},
                                    {"glitter", true},
                                    {"sealer", true},
                                    {"drying", 20},
                                    {"last_drying", 120},
                                    {"presses", 2},
                                    {"packets_per_press", 8},
                                    {"hands", 3},
                                    {"pieces", 10}}}})
                            .making;
  EXPECT_EQ(making.score, ScoreStyle::dashes);
  EXPECT_EQ(std::tuple(making.score_dash_mm, making.score_gap_mm), std::tuple(3.0, 1.0));
  EXPECT_EQ(making.marks, MarkStyle::nicks);
  EXPECT_EQ(making.cutting, Cutting::by_machine);
  EXPECT_EQ(making.display, Display::hangs);
  EXPECT_EQ(making.glue, "paste");
  EXPECT_EQ(making.bead_mm, 0.8);
  EXPECT_TRUE(making.glitter);
  EXPECT_TRUE(making.sealer);
  EXPECT_EQ(std::tuple(making.drying_min, making.last_drying_min), std::tuple(20.0, 120.0));
  EXPECT_EQ(std::tuple(making.presses, making.packets_per_press, making.hands, making.pieces), std::tuple(2, 8, 3, 10));
}

TEST(design, reads_every_way_to_score_and_to_mark) {
  EXPECT_EQ(accepted({{"making", {{"score", "line"}}}}).making.score, ScoreStyle::line);
  EXPECT_EQ(accepted({{"making", {{"score", "dashes"}}}}).making.score, ScoreStyle::dashes);
  EXPECT_EQ(accepted({{"making", {{"marks", "printed"}}}}).making.marks, MarkStyle::printed);
  EXPECT_EQ(accepted({{"making", {{"marks", "none"}}}}).making.marks, MarkStyle::none);
}

TEST(design, reads_making_in_inches) {
  const Making making =
      accepted({{"units", "in"},
                {"silhouette", {{"path", "M 0 0 H 2 V 5 H 0"}}},
                {"rows", nullptr},
                {"sheet", nullptr},
                {"paper", nullptr},
                {"sizes", nullptr},
                {"making", {{"bead", 0.04}, {"score", {{"dash", 0.1}, {"gap", 0.05}}}, {"drying", 15}}}})
          .making;
  constexpr double rounding = 1e-9; // an inch is exactly 25.4 mm
  EXPECT_NEAR(making.bead_mm, 1.016, rounding);
  EXPECT_NEAR(making.score_dash_mm, 2.54, rounding);
  EXPECT_NEAR(making.score_gap_mm, 1.27, rounding);
  EXPECT_EQ(making.drying_min, 15) << "minutes are minutes";
}

TEST(design, reads_prices) {
  const Prices prices = accepted({{"prices",
                                   {{"currency", "EUR"},
                                    {"sheet", 1},
                                    {"glue_per_100g", 2},
                                    {"glitter_per_100g", 3},
                                    {"sealer_per_100g", 4},
                                    {"hour", 5},
                                    {"overhead", 6},
                                    {"waste", 0.1},
                                    {"fee_share", 0.2},
                                    {"fee_fixed", 7},
                                    {"margin", 0.3}}}})
                            .prices;
  EXPECT_EQ(prices.currency, "EUR");
  EXPECT_EQ(std::tuple(prices.sheet, prices.glue_per_100g, prices.glitter_per_100g, prices.sealer_per_100g),
            std::tuple(1.0, 2.0, 3.0, 4.0));
  EXPECT_EQ(std::tuple(prices.hour, prices.overhead, prices.waste), std::tuple(5.0, 6.0, 0.1));
  EXPECT_EQ(std::tuple(prices.fee_share, prices.fee_fixed, prices.margin), std::tuple(0.2, 7.0, 0.3));
}

TEST(design, reads_what_the_maker_publishes) {
  const Publishing none = accepted(json::object()).publishing;
  EXPECT_EQ(none.maker + none.version + none.licence, "");
  EXPECT_EQ(none.languages, std::vector<std::string>{"en"});
  const Publishing given = accepted({{"publishing",
                                      {{"maker", "Orchard collection"},
                                       {"version", "2"},
                                       {"licence", {"First.", "Second."}},
                                       {"languages", {"de", "en"}}}}})
                               .publishing;
  EXPECT_EQ(given.maker, "Orchard collection");
  EXPECT_EQ(given.version, "2");
  EXPECT_EQ(given.licence, "First.\nSecond.");
  EXPECT_EQ(given.languages, (std::vector<std::string>{"de", "en"}));
}

/// Refused for a reason that a JSON schema cannot state.
Refusal refused(const json& patch) {
  const auto parsed = parse(patched(patch));
  const auto* refusal = std::get_if<Refusal>(&parsed);
  return refusal != nullptr ? *refusal : Refusal{"accepted", ""};
}

TEST(design, refuses_mistakes_between_keys) {
  EXPECT_EQ(refused({{"sizes", {{{"name", "Small"}}, {{"name", "small"}}}}}).where, "/sizes/1/name");
  EXPECT_EQ(refused({{"paper", {{"caliper", 0.02}}}}).where, "/paper/stiffness");
  EXPECT_EQ(refused({{"paper", {{"caliper", 0.01}}}}).where, "/paper/caliper");
  EXPECT_EQ(refused({{"making", {{"bead", 0.05}}}}).where, "/making/bead");
  EXPECT_EQ(refused({{"making", {{"score", {{"dash", 0.4}, {"gap", 1}}}}}}).where, "/making/score/dash");
  EXPECT_EQ(refused({{"prices", {{"fee_share", 0.5}, {"margin", 0.5}}}}).where, "/prices");
  EXPECT_EQ(refused({{"sheet", {{"size", {{"width", 100}, {"height", 200}}}, {"margin", 50}}}}).where, "/sheet");
}

TEST(design, a_fan_without_a_seat_has_none_and_an_empty_seat_has_its_defaults) {
  const json fan = {{"name", "wing"}, {"depth", 9}, {"pleats", 12}, {"length", 60}};
  EXPECT_FALSE(accepted({{"fans", {fan}}}).fans.front().seat.has_value());
  json seated = fan;
  seated["seat"] = json::object();
  const FanSeat seat = accepted({{"fans", {seated}}}).fans.front().seat.value();
  EXPECT_EQ(seat.hold, Hold::along_edge);
  EXPECT_EQ(seat.below_neck_mm, 10);
  EXPECT_EQ(seat.azimuth_deg, 90);
  EXPECT_FALSE(seat.last_on_head);
}

TEST(design, reads_every_key_of_a_seat) {
  const auto seat_of = [](const json& seat, const json& more = json::object()) {
    json patch = {{"fans", {{{"name", "wing"}, {"depth", 0.5}, {"pleats", 12}, {"length", 3}, {"seat", seat}}}},
                  {"units", "in"},
                  {"sizes", nullptr},
                  {"rows", nullptr},
                  {"paper", nullptr},
                  {"sheet", nullptr}};
    patch.update(more);
    return accepted(patch).fans.front().seat.value();
  };
  const FanSeat cell =
      seat_of({{"hold", "in cell"}, {"below_neck", 2}, {"azimuth", 120}, {"rise", 30}, {"turn", -15}, {"depth", 0.25}});
  EXPECT_EQ(cell.hold, Hold::in_cell);
  EXPECT_NEAR(cell.below_neck_mm, 50.8, 1e-9);
  EXPECT_EQ(cell.azimuth_deg, 120);
  EXPECT_EQ(cell.rise_deg, 30);
  EXPECT_EQ(cell.turn_deg, -15);
  EXPECT_NEAR(cell.depth_mm, 6.35, 1e-9);
  EXPECT_EQ(seat_of({{"hold", "at point"}}).hold, Hold::at_point);
  EXPECT_TRUE(seat_of({{"hold", "along edge"}, {"last_on_head", true}}).last_on_head);
}

TEST(design, judges_lengths_after_conversion_and_names_the_file_s_unit) {
  const Refusal refusal = refused({{"units", "in"}, {"rows", {{"width", 5}}}}); // 127 mm, and 100 is the most
  EXPECT_EQ(refusal.where, "/rows/width");
  EXPECT_NE(refusal.sentence.find("3.93701 in"), std::string::npos) << refusal.sentence;
}

} // namespace
} // namespace fanwright::design
