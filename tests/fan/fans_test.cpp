#include "fan/check_fans.h"
#include "fan/fans.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace fanwright::fan {
namespace {

design::Design design_of(const std::string& fans, const std::string& more = "") {
  const auto parsed =
      design::parse(R"({ "fanwright": 1, "silhouette": { "path": "M 0 0 H 60 V 120 H 0", "shows": "flat" },
    "paper": { "grammage": 120 }, "fans": [)" +
                    fans + "]" + more + "}");
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed)) {
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
    return {};
  }
  return std::get<design::Design>(parsed);
}

const std::string wing =
    R"({ "name": "wing", "pair": true, "depth": 9, "pleats": 12, "outline": "M -50 40 Q 0 90 60 20" })";

design::Refusal refusal_of(const design::Design& design) {
  const auto fans = fans_of(design, design.sizes.front());
  if (const auto* refusal = std::get_if<design::Refusal>(&fans)) {
    return *refusal;
  }
  ADD_FAILURE() << "was made";
  return {};
}

TEST(fans, grow_with_the_silhouette_and_keep_their_pleats) {
  const auto design =
      design_of(wing, R"(, "sizes": [ { "name": "small", "height": 60 }, { "name": "large", "height": 180 } ])");
  const auto small = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes[0]));
  const auto large = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes[1]));
  EXPECT_NEAR(small.front().made.strip.depth_mm, 4.5, 1e-9);
  EXPECT_NEAR(large.front().made.strip.depth_mm, 13.5, 1e-9);
  EXPECT_EQ(small.front().made.strip.panels, 24);
  EXPECT_EQ(large.front().made.strip.panels, 24);
  EXPECT_NEAR(small.front().made.spread.spread_deg(), large.front().made.spread.spread_deg(), 1e-9);
}

TEST(fans, inches_are_read_as_inches) {
  const auto design = design_of(R"({ "name": "tail", "depth": 0.4, "pleats": 10, "outline": "M -2 1 Q 0 3 2 1" })",
                                R"(, "units": "in", "sizes": [ { "name": "a", "height": 4.724409 } ])");
  // The silhouette's 120 in come down to 120 mm, so that one unit is one millimetre again.
  EXPECT_EQ(refusal_of(design).where, "/fans/0/depth");
}

TEST(fans, a_pair_has_a_right_and_a_left_strip) {
  const auto design = design_of(wing + R"(, { "name": "tail", "depth": 10, "pleats": 9, "length": 60, "spread": 90 })");
  const auto fans = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes.front()));
  const auto pair = strips_of(fans[0]), single = strips_of(fans[1]);
  ASSERT_EQ(pair.size(), 2U);
  EXPECT_EQ(pair[0].name, "wing, right");
  EXPECT_EQ(pair[1].name, "wing, left");
  EXPECT_NE(pair[0].strip.turned, pair[1].strip.turned);
  ASSERT_EQ(single.size(), 1U);
  EXPECT_EQ(single[0].name, "tail");
}

TEST(fans, a_paper_of_its_own_sets_the_gathered_end) {
  const auto thick = design_of(R"({ "name": "tail", "depth": 10, "pleats": 9, "length": 60, "spread": 90 })");
  const auto thin = design_of(
      R"({ "name": "tail", "depth": 10, "pleats": 9, "length": 60, "spread": 90, "paper": { "grammage": 80, "caliper": 0.1 } })");
  const auto radius = [](const design::Design& design) {
    const auto fans = std::get<std::vector<SizedFan>>(fans_of(design, design.sizes.front()));
    return fans.front().made.spread.pleats().inner_radius_mm;
  };
  EXPECT_NEAR(radius(thick) / radius(thin), paper::typical_paper(120).caliper_mm / 0.1, 1e-9);
}

TEST(fans, refusals_name_the_fan_and_the_key) {
  const auto few = refusal_of(design_of(wing + R"(, { "name": "collar", "depth": 10, "pleats": 12, "length": 60 })"));
  EXPECT_EQ(few.where, "/fans/1/pleats");
  EXPECT_NE(few.sentence.find("collar"), std::string::npos);
  EXPECT_TRUE(fails_check(few));
  const auto broken =
      refusal_of(design_of(R"({ "name": "wing", "depth": 9, "pleats": 12, "outline": "M -50 40 Q 0" })"));
  EXPECT_EQ(broken.where, "/fans/0/outline");
  EXPECT_FALSE(fails_check(broken));
  const auto two = refusal_of(
      design_of(R"({ "name": "wing", "depth": 9, "pleats": 12, "outline": "M -50 40 L 50 40 M 0 0 L 50 50" })"));
  EXPECT_EQ(two.where, "/fans/0/outline");
}

fit::Finding finding(const design::Design& design, const std::string& id) {
  const auto found = std::get<std::vector<fit::Finding>>(check(design, design.sizes.front(), nullptr));
  const auto place = std::find_if(found.begin(), found.end(), [&](const auto& one) { return one.id == id; });
  if (place == found.end()) {
    ADD_FAILURE() << "no " << id;
    return {};
  }
  return *place;
}

TEST(fans, checks_tell_what_cannot_spread_and_what_is_unusual) {
  using fit::Finding;
  const auto collar = [](int pleats, const std::string& more) {
    return design_of(R"({ "name": "collar", "depth": 10, "length": 60, "pleats": )" + std::to_string(pleats) + more +
                     "}");
  };
  EXPECT_EQ(finding(collar(12, ""), "fan.form").verdict, Finding::fails);
  EXPECT_NE(finding(collar(12, ""), "fan.form").remedy.find("pleats"), std::string::npos);
  EXPECT_EQ(finding(collar(24, ""), "fan.form").verdict, Finding::good);
  EXPECT_LT(finding(collar(24, ""), "fan.form").value, 0.3);
  // 48 panels of 10 mm; with the gathered end, 2.4 mm, the rim is 62.1 mm from the centre: 480 / (2 pi 62.1).
  EXPECT_NEAR(finding(collar(24, ""), "fan.relief").value, 1.230, 0.005);
  EXPECT_EQ(finding(collar(24, ""), "fan.relief").verdict, Finding::good);
  EXPECT_EQ(finding(collar(34, ""), "fan.relief").verdict, Finding::note);
  EXPECT_EQ(finding(collar(24, ""), "fan.paper").verdict, Finding::good);
  EXPECT_EQ(finding(collar(24, R"(, "paper": { "grammage": 250 })"), "fan.paper").verdict, Finding::warning);
}

TEST(fans, a_design_without_fans_has_no_findings_of_them) {
  const auto design = design_of("");
  EXPECT_TRUE(std::get<std::vector<fit::Finding>>(check(design, design.sizes.front(), nullptr)).empty());
}

} // namespace
} // namespace fanwright::fan
