#include "making/making.h"

#include <gtest/gtest.h>
// gtest stands first: rapidcheck/gtest.h needs it.
#include <rapidcheck/gtest.h>

#include <limits>

namespace fanwright::making {
namespace {

double priced(double cost, const design::Prices& prices) {
  const auto found = price(cost, prices);
  const auto* refusal = std::get_if<design::Refusal>(&found);
  EXPECT_EQ(refusal, nullptr) << refusal->sentence;
  return refusal == nullptr ? std::get<double>(found) : std::numeric_limits<double>::quiet_NaN();
}

TEST(making, prices_as_a_published_example_does) {
  // (28.00 + 0.50) / 0.936 = 30.45, from an article for crafters, "Breaking down your costs" (November 2009).
  design::Prices prices;
  prices.fee_fixed = 0.50;
  prices.fee_share = 0.064;
  EXPECT_NEAR(priced(28, prices), 30.45, 0.005);
}

TEST(making, prices_fees_and_margin_together) {
  // (12.20 + 0.25) / (1 - 0.095 - 0.30), computed by hand to two places.
  design::Prices prices;
  prices.fee_fixed = 0.25;
  prices.fee_share = 0.095;
  prices.margin = 0.30;
  EXPECT_NEAR(priced(12.20, prices), 20.58, 0.005);
}

TEST(making, adds_materials_hours_and_overhead) {
  // Materials 3.20, 18 minutes at 25 an hour, overhead 1.50: 12.20, and by the usual rule 24.40 and 48.80.
  Materials materials;
  materials.sheets = 8;
  materials.glue_g = 20;
  materials.glitter_g = 5;
  materials.sealer_g = 10;
  design::Prices prices;
  prices.sheet = 0.25;         // 2.00
  prices.glue_per_100g = 2;    // 0.40
  prices.glitter_per_100g = 6; // 0.30
  prices.sealer_per_100g = 5;  // 0.50
  prices.hour = 25;
  prices.overhead = 1.50;
  prices.waste = 0;
  prices.fee_fixed = 0.25;
  prices.fee_share = 0.095;
  prices.margin = 0.30;
  const auto found = cost(materials, 18, prices);
  ASSERT_TRUE(std::holds_alternative<Cost>(found));
  const Cost& sum = std::get<Cost>(found);
  constexpr double rounding = 1e-9;
  EXPECT_NEAR(sum.materials, 3.20, rounding);
  EXPECT_NEAR(sum.labour, 7.50, rounding);
  EXPECT_NEAR(sum.cost, 12.20, rounding);
  EXPECT_NEAR(sum.price, 20.58, 0.005);
  EXPECT_NEAR(sum.wholesale, 24.40, rounding);
  EXPECT_NEAR(sum.retail, 48.80, rounding);
  prices.waste = 0.10;
  EXPECT_NEAR(std::get<Cost>(cost(materials, 18, prices)).materials, 3.52, rounding);
}

TEST(making, refuses_fees_and_margin_that_leave_nothing) {
  design::Prices prices;
  prices.fee_share = 0.6;
  for (const double margin : {0.4, 0.5, 0.99}) {
    prices.margin = margin;
    const auto found = price(10, prices);
    ASSERT_TRUE(std::holds_alternative<design::Refusal>(found)) << margin;
    EXPECT_EQ(std::get<design::Refusal>(found).where, "/prices");
    EXPECT_TRUE(std::holds_alternative<design::Refusal>(cost({}, 60, prices))) << margin;
  }
}

RC_GTEST_PROP(making, a_price_pays_cost_fees_and_margin, ()) {
  design::Prices prices;
  prices.fee_share = *rc::gen::inRange(0, 50) / 100.0;
  prices.margin = *rc::gen::inRange(0, 49) / 100.0;
  prices.fee_fixed = *rc::gen::inRange(0, 500) / 100.0;
  prices.overhead = *rc::gen::inRange(0, 10000) / 100.0;
  const auto sum = std::get<Cost>(cost({}, 0, prices));
  constexpr double rounding = 1e-6; // prices here reach some 10,000
  RC_ASSERT(std::abs(sum.cost + sum.fees + sum.kept - sum.price) < rounding);
  RC_ASSERT(std::abs(sum.kept - prices.margin * sum.price) < rounding);
}

} // namespace
} // namespace fanwright::making
