// Seats as the design file asks for them.
#include "fan/seated_fans.h"
#include "fan/swept_form.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>

namespace fanwright::fan {
namespace {

using nlohmann::json;

/// Drawn twice as large as its size: a wing under the lid of lidded_outline(), 35 mm below it.
json lidded_wing(double spread_deg) {
  return {{"fanwright", 1},
          {"silhouette", {{"path", "M 0 0 H 60 V 228 H 0"}, {"shows", "flat"}}},
          {"paper", {{"grammage", 160}, {"caliper", 0.2}}},
          {"fans",
           {{{"name", "tail"}, {"depth", 10}, {"pleats", 9}, {"length", 60}, {"spread", 90}},
            {{"name", "wing"},
             {"pair", true},
             {"depth", 16},
             {"pleats", 20},
             {"length", 90},
             {"spread", spread_deg},
             {"seat", {{"below_neck", 50}}}}}},
          {"sizes", {{{"name", "small"}, {"height", 114}}, {{"name", "large"}}}}};
}

std::variant<std::vector<SeatedFan>, Unseated> seats_of(const json& file) {
  const auto design = std::get<design::Design>(design::parse(file.dump()));
  const auto fans = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes.front()));
  return seated_fans(fans, swept_form(lidded_outline(), 24), 24, design.sizes.front().paper, true);
}

TEST(seated_fans, fans_without_a_seat_are_left_out_and_lengths_follow_the_size) {
  const auto design = std::get<design::Design>(design::parse(lidded_wing(90).dump()));
  const auto fans = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes.front()));
  EXPECT_FALSE(fans[0].seat.has_value());
  ASSERT_TRUE(fans[1].seat.has_value());
  EXPECT_NEAR(fans[1].seat->below_neck_mm, 25, 1e-9);
  EXPECT_TRUE(fans[1].seat->pair);
  const auto seats = std::get<std::vector<SeatedFan>>(seats_of(lidded_wing(90)));
  ASSERT_EQ(seats.size(), 1U);
  EXPECT_EQ(seats[0].fan, 1U);
  ASSERT_EQ(seats[0].seated.fans.size(), 2U);
  // The lid's underside is at 110 mm, the narrowest place of the neck where it begins, at 100.
  EXPECT_NEAR(seats[0].seated.free_height_mm.value(), 35, 1e-6);
}

TEST(seated_fans, refusals_have_their_place_in_the_file_and_say_what_to_write_there) {
  json file = lidded_wing(160);
  const auto result = seats_of(file);
  ASSERT_TRUE(std::holds_alternative<Unseated>(result));
  const Unseated& no = std::get<Unseated>(result);
  EXPECT_EQ(no.why.where, "/fans/1/seat/below_neck");
  EXPECT_TRUE(no.why.sentence.starts_with("Fan \"wing\", size small: ")) << no.why.sentence;
  EXPECT_TRUE(no.why.sentence.starts_with(no.reason));
  ASSERT_FALSE(no.remedies.empty());
  for (const SeatChange& change : no.remedies) {
    json changed = file;
    changed[json::json_pointer(change.where)] = change.value;
    EXPECT_TRUE(std::holds_alternative<std::vector<SeatedFan>>(seats_of(changed))) << change.sentence;
    EXPECT_NE(no.why.sentence.find(change.sentence), std::string::npos);
  }
  const auto lower = std::ranges::find(no.remedies, "/fans/1/seat/below_neck", &SeatChange::where);
  ASSERT_NE(lower, no.remedies.end());
  // Whole mm of the size, two of the file's each.
  EXPECT_NE(lower->sentence.find("\"below_neck\": "), std::string::npos) << lower->sentence;
  EXPECT_NEAR(std::remainder(lower->value, 2), 0, 1e-9);
}

TEST(seated_fans, the_figure_is_measured_with_all_its_fans) {
  json file = lidded_wing(90);
  file["fans"][0]["seat"] = {{"hold", "at point"}, {"below_neck", 120}, {"azimuth", 0}};
  file["fans"][1]["pair"] = false;
  const auto design = std::get<design::Design>(design::parse(file.dump()));
  const auto fans = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes.front()));
  const opened::Form form = swept_form(lidded_outline(), 24);
  const paper::Paper& paper = design.sizes.front().paper;
  const auto seats = std::get<std::vector<SeatedFan>>(seated_fans(fans, form, 24, paper, true));
  ASSERT_EQ(seats.size(), 2U);
  const Figure figure = figure_with(fans, seats, form, 24, paper, true);
  // The lid, 300 mm across, is wider than either fan.
  EXPECT_NEAR(figure.width_mm, 300, 1e-9);
  const double alone = seats[0].seated.figure.balance->mass_g, other = seats[1].seated.figure.balance->mass_g;
  const double body = body_of(form, 24, paper).mass_g;
  EXPECT_NEAR(figure.balance->mass_g, alone + other - body, 1e-9);
}

} // namespace
} // namespace fanwright::fan
