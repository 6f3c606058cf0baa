#include "fan/fan.h"
#include "fan/pleats.h"
#include "fan/random_fans.h"
#include "fan/tolerances.h"

#include <gtest/gtest.h>

#include <regex>
#include <string>

namespace fanwright::fan {
namespace {

design::Refusal refusal_of(const Fan& fan) {
  const auto made = make(fan);
  if (const auto* refusal = std::get_if<design::Refusal>(&made)) {
    return *refusal;
  }
  ADD_FAILURE() << "was made";
  return {};
}

Fan disc(int pleats, double depth_mm, double length_mm, double spread_deg = 360) {
  Fan fan;
  fan.pleats = pleats;
  fan.depth_mm = depth_mm;
  fan.edge = StraightEdge{length_mm, spread_deg};
  return fan;
}

DrawnEdge drawn(const std::string& text) {
  return {std::get<std::vector<leaf::Subpath>>(leaf::parse_path_data(text)).front()};
}

TEST(fan, too_few_pleats_are_refused_with_the_number_that_works) {
  const auto refusal = refusal_of(disc(12, 12.5, 60));
  EXPECT_EQ(refusal.where, "/pleats");
  EXPECT_NE(refusal.sentence.find("close the disc"), std::string::npos) << refusal.sentence;
}

TEST(fan, each_number_that_a_refusal_names_works_and_one_less_does_not) {
  int tried = 0;
  for (const double depth : {5.0, 8.0, 12.5, 20.0}) {
    for (const double length : {40.0, 60.0, 110.0}) {
      for (const double spread : {90.0, 200.0, 360.0}) {
        Fan fan = disc(4, depth, length, spread);
        const auto made = make(fan);
        const auto* refusal = std::get_if<design::Refusal>(&made);
        std::smatch found;
        const std::string sentence = refusal ? refusal->sentence : "";
        if (!std::regex_search(sentence, found, std::regex("use (\\d+) pleats"))) {
          continue;
        }
        fan.pleats = std::stoi(found[1]);
        EXPECT_TRUE(std::holds_alternative<Made>(make(fan))) << sentence;
        fan.pleats -= 1;
        EXPECT_TRUE(std::holds_alternative<design::Refusal>(make(fan))) << sentence;
        ++tried;
      }
    }
  }
  EXPECT_GE(tried, 20);
}

TEST(fan, pleats_that_would_be_stretched_flat_are_refused) {
  // 38 panels of 10 mm just close at 60 mm, and lie flat at the rim: all relief gone.
  const auto refusal = refusal_of(disc(19, 10, 60));
  EXPECT_EQ(refusal.where, "/pleats");
  EXPECT_TRUE(std::holds_alternative<Made>(make(disc(24, 10, 60))));
}

TEST(fan, the_gathered_end_takes_the_packed_paper) {
  const auto made = std::get<Made>(make(disc(24, 10, 60)));
  // 48 panels of 0.20 mm pack to 1.53 mm; hands reach 1.75 times that.
  EXPECT_NEAR(made.spread.pleats().inner_radius_mm, 1.75 * packed_radius_mm(48, 0.20, 360, 1), 1e-9);
  EXPECT_EQ(cover_radius_mm(made.spread), 8);
  Fan tight = disc(24, 10, 60);
  tight.inner_radius_mm = 1;
  EXPECT_EQ(refusal_of(tight).where, "/inner_radius");
  tight.inner_radius_mm = 1.6;
  EXPECT_TRUE(std::holds_alternative<Made>(make(tight)));
}

TEST(fan, an_outline_may_be_drawn_either_way_round) {
  Fan fan = disc(12, 8, 0);
  fan.edge = drawn("M -50 20 Q -20 70 0 60 Q 40 50 40 30");
  const Made one = std::get<Made>(make(fan));
  fan.edge = drawn("M 40 30 Q 40 50 0 60 Q -20 70 -50 20");
  const Made other = std::get<Made>(make(fan));
  EXPECT_NEAR(one.spread.first_side_deg(), other.spread.first_side_deg(), 1e-9);
  EXPECT_NEAR(one.spread.spread_deg(), other.spread.spread_deg(), 1e-9);
  EXPECT_NEAR(one.strip.edge.front().front().z, other.strip.edge.front().front().z, 1e-9);
  EXPECT_NEAR(one.strip.height_mm(), other.strip.height_mm(), 0.01);
}

TEST(fan, outlines_that_are_no_fan_are_refused_at_the_outline) {
  for (const char* text : {
           "M 30 0 L 30 0.01",                                                   // no turn
           "M -50 20 L 3 1 L 50 30",                                             // through the centre
           "M -50 20 L -50 60 L -45 70 L -50 20",                                // ends where it began, not round
           "M -50 0 L -55 -8 L 0 60 L 50 0",                                     // beyond its first side
           "M -40 0 A 40 40 0 1 0 40 0 A 40 40 0 0 0 -40 0 A 40 40 0 0 0 0 -40", // more than once round
           "M -50 10 L 10 60 L 10 30 L -10 60 L 50 10",                          // crosses itself
       }) {
    Fan fan = disc(20, 8, 0);
    fan.edge = drawn(text);
    const auto refusal = refusal_of(fan);
    EXPECT_EQ(refusal.where, "/outline") << text << ": " << refusal.sentence;
  }
}

TEST(fan, impossible_numbers_are_refused_at_their_key) {
  EXPECT_EQ(refusal_of(disc(1, 10, 60)).where, "/pleats");
  EXPECT_EQ(refusal_of(disc(12, 1, 60)).where, "/depth");
  EXPECT_EQ(refusal_of(disc(12, 10, 5, 90)).where, "/length");
  EXPECT_EQ(refusal_of(disc(12, 10, 60, 400)).where, "/spread");
  Fan fan = disc(24, 10, 60);
  fan.flap_mm = 11;
  EXPECT_EQ(refusal_of(fan).where, "/flap");
  fan.flap_mm = 0;
  fan.lap_mm = 9;
  EXPECT_EQ(refusal_of(fan).where, "/lap");
}

} // namespace
} // namespace fanwright::fan
