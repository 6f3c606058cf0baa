#include "opened/panels.h"
#include "opened/spread.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fanwright::opened {
namespace {

Spread spread_of(const Panel& panel) {
  const auto form = open(panel);
  if (!std::holds_alternative<Form>(form)) {
    ADD_FAILURE() << std::get<Failure>(form).sentence;
    return {};
  }
  const auto result = spread(panel, std::get<Form>(form));
  if (const auto* failure = std::get_if<Failure>(&result)) {
    ADD_FAILURE() << failure->sentence;
    return {};
  }
  return std::get<Spread>(result);
}

TEST(opened, spread_is_finite_and_holds_its_contributions) {
  for (const Panel& panel : {small_panel(), sloped_panel()}) {
    const Spread result = spread_of(panel);
    for (const Contribution& part : {result.paper, result.crease, result.tilt}) {
      EXPECT_GE(part.height_mm, 0);
      EXPECT_GE(part.diameter_mm, 0);
      EXPECT_GE(result.height_mm, part.height_mm);
      EXPECT_GE(result.diameter_mm, part.diameter_mm);
    }
    EXPECT_GT(result.height_mm, 0);
    EXPECT_LT(result.height_mm, 3);
    EXPECT_GT(result.diameter_mm, 0);
    EXPECT_LT(result.diameter_mm, 4);
  }
}

TEST(opened, spread_has_the_same_bits_on_every_run) {
  const Spread first = spread_of(sloped_panel());
  const Spread second = spread_of(sloped_panel());
  EXPECT_EQ(first.height_mm, second.height_mm);
  EXPECT_EQ(first.diameter_mm, second.diameter_mm);
}

TEST(opened, spread_stops_when_cancelled) {
  const auto form = open(small_panel());
  Options options;
  int asked = 0;
  options.cancelled = [&] { return ++asked > 3; };
  const auto result = spread(small_panel(), std::get<Form>(form), options);
  ASSERT_TRUE(std::holds_alternative<Failure>(result));
  EXPECT_EQ(std::get<Failure>(result).sentence, "Cancelled.");
}

TEST(opened, spread_asks_for_an_opened_form) {
  EXPECT_TRUE(std::holds_alternative<Failure>(spread(small_panel(), Form{})));
}

} // namespace
} // namespace fanwright::opened
