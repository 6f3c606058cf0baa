// fan.seat, fan.clear and fan.stands: of each a design that passes and one in which it alone does not.
#include "fan/check_fans.h"
#include "fan/swept_form.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>

namespace fanwright::fan {
namespace {

using fit::Finding;
using nlohmann::json;

/// A post under the lid of lidded_outline(), with one fan at its right.
json post_with(const json& fan) {
  json wing = {{"name", "wing"}, {"depth", 8}, {"pleats", 20}, {"length", 45}, {"spread", 100}};
  wing.merge_patch(fan);
  return {{"fanwright", 1},
          {"silhouette", {{"path", "M 0 0 H 20 V 114 H 0"}, {"shows", "flat"}}},
          {"paper", {{"grammage", 160}, {"caliper", 0.2}}},
          {"fans", {wing}}};
}

std::vector<Finding> findings_of(const json& file, const opened::Form& form) {
  const auto design = std::get<design::Design>(design::parse(file.dump()));
  return std::get<std::vector<Finding>>(check(design, design.sizes.front(), &form));
}

Finding::Verdict verdict_of(const std::vector<Finding>& findings, const std::string& id) {
  const auto found = std::ranges::find(findings, id, &Finding::id);
  EXPECT_NE(found, findings.end()) << id;
  return found == findings.end() ? Finding::good : found->verdict;
}

/// Findings about seats that are not good.
std::vector<std::string> faults_of(const std::vector<Finding>& findings) {
  std::vector<std::string> ids;
  for (const Finding& finding : findings) {
    if (finding.verdict >= Finding::warning) {
      ids.push_back(finding.id);
    }
  }
  return ids;
}

opened::Form lidded() { return swept_form(lidded_outline(), 24); }

TEST(check_seats, a_fan_that_sits_well_is_told_with_its_angle) {
  const auto findings = findings_of(post_with({{"seat", {{"below_neck", 40}}}}), lidded());
  EXPECT_TRUE(faults_of(findings).empty()) << faults_of(findings).front();
  const auto seat = std::ranges::find(findings, "fan.seat", &Finding::id);
  ASSERT_NE(seat, findings.end());
  EXPECT_GE(seat->value, 100);
  EXPECT_EQ(seat->limit, 100);
  EXPECT_EQ(seat->where, "/fans/0/seat");
  EXPECT_EQ(verdict_of(findings, "fan.clear"), Finding::good);
  EXPECT_EQ(verdict_of(findings, "fan.stands"), Finding::good);
}

TEST(check_seats, a_fan_that_cannot_spread_in_its_seat_fails_that_alone_and_says_what_helps) {
  const json file = post_with({{"spread", 160}, {"seat", {{"below_neck", 25}}}});
  const auto findings = findings_of(file, lidded());
  EXPECT_EQ(faults_of(findings), std::vector<std::string>{"fan.seat"});
  const auto seat = std::ranges::find(findings, "fan.seat", &Finding::id);
  EXPECT_EQ(seat->verdict, Finding::fails);
  EXPECT_EQ(seat->where, "/fans/0/seat/below_neck");
  EXPECT_NE(seat->sentence.find("meets the head"), std::string::npos) << seat->sentence;
  EXPECT_NE(seat->remedy.find("Seat it"), std::string::npos) << seat->remedy;
  EXPECT_TRUE(seat->remedy.ends_with('.'));
}

TEST(check_seats, a_fan_that_hardly_clears_the_table_is_a_warning) {
  // The first side, 45 mm and the gathered end long, points straight down from 60 mm less the height below the neck.
  const json high = post_with({{"seat", {{"below_neck", 45}}}});
  EXPECT_EQ(verdict_of(findings_of(high, lidded()), "fan.clear"), Finding::good);
  const auto design = std::get<design::Design>(design::parse(high.dump()));
  const auto fans = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes.front()));
  const double reach = fans.front().made.spread.outer_radius_mm();
  const auto low = findings_of(post_with({{"seat", {{"below_neck", 100 - reach - 0.6}}}}), lidded());
  EXPECT_EQ(faults_of(low), std::vector<std::string>{"fan.clear"});
  const auto clear = std::ranges::find(low, "fan.clear", &Finding::id);
  EXPECT_NEAR(clear->value, 0.5, 0.1); // half a caliper less
  EXPECT_NE(clear->sentence.find("the table"), std::string::npos) << clear->sentence;
}

TEST(check_seats, a_heavy_fan_on_one_side_of_a_slender_post_makes_it_fall) {
  // A post of 12 mm radius and 120 mm height weighs 13 g here and may be tilted by 11 degrees; a fan of 200 g/m2 draws
  // its mass to one side.
  const opened::Form post = swept_form({{16, 0}, {16, 100}}, 24);
  json fan = {{"length", 60}, {"spread", 120}, {"seat", {{"hold", "at point"}, {"below_neck", 30}}}};
  const auto one = findings_of(post_with(fan), post);
  EXPECT_EQ(faults_of(one), std::vector<std::string>{"fan.stands"});
  fan["pair"] = true;
  fan["paper"] = {{"grammage", 40}, {"caliper", 0.06}};
  fan["seat"]["below_neck"] = 60;
  fan["length"] = 30;
  EXPECT_EQ(verdict_of(findings_of(post_with(fan), post), "fan.stands"), Finding::good);
}

TEST(check_seats, a_hanging_piece_neither_stands_nor_meets_a_table) {
  json file = post_with({{"seat", {{"below_neck", 40}}}});
  file["making"] = {{"display", "hangs"}};
  const auto findings = findings_of(file, lidded());
  EXPECT_EQ(std::ranges::find(findings, "fan.stands", &Finding::id), findings.end());
  EXPECT_EQ(std::ranges::find(findings, "fan.seat", &Finding::id)->verdict, Finding::good);
}

TEST(check_seats, of_a_form_that_is_not_real_nothing_is_said) {
  opened::Form locked = lidded();
  locked.lock_ratio = 1.2;
  const auto findings = findings_of(post_with({{"spread", 160}, {"seat", {{"below_neck", 25}}}}), locked);
  EXPECT_EQ(std::ranges::find(findings, "fan.seat", &Finding::id), findings.end());
}

} // namespace
} // namespace fanwright::fan
