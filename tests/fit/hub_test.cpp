#include "fit/pull_back.h"

#include <gtest/gtest.h>

namespace fanwright::fit {
namespace {

/// A spine of 100 mm that rests 2 mm off the axis at its middle, and stands off 6 mm at its ends.
Hub bowed() {
  return hub_along(0, 100, [](double z) { return leaf::Point{2 + 4 * (z / 50 - 1) * (z / 50 - 1), z}; });
}

TEST(hub, stands_off_the_axis_as_its_spine_does) {
  const Hub hub = bowed();
  EXPECT_NEAR(hub.radius_at(50), 2, 0.01);
  EXPECT_NEAR(hub.radius_at(25), 3, 0.01);
  EXPECT_EQ(hub.radius_at(-1), hub.radius_at(0));
  EXPECT_EQ(hub.radius_at(101), hub.radius_at(100));
}

TEST(hub, takes_what_is_drawn_on_the_axis_to_the_spine_and_leaves_what_is_drawn_further_out) {
  const Hub hub = bowed();
  for (const double z : {0.0, 30.0, 50.0, 100.0}) {
    EXPECT_DOUBLE_EQ(hub.reachable({0, z}).x, hub.radius_at(z));
    EXPECT_EQ(hub.reachable({hub.reach_at(z) + 0.1, z}).x, hub.reach_at(z) + 0.1);
    EXPECT_EQ(hub.reachable({1, z}).z, z);
  }
}

TEST(hub, keeps_the_order_of_places_and_nowhere_turns_an_outline_sharply) {
  const Hub hub = bowed();
  constexpr double z = 90, step = 0.01;
  double last = hub.reachable({0, z}).x, last_slope = 0;
  for (int k = 1; k * step < 2 * hub.radius_at(z); ++k) {
    const double x = hub.reachable({k * step, z}).x, slope = (x - last) / step;
    EXPECT_GT(slope, 0) << k * step;
    // From hardly moving to moving along, within a quarter of a radius: 6 per 1.2 radii of 4.6 mm at most.
    EXPECT_NEAR(slope, k > 1 ? last_slope : slope, 0.02) << k * step;
    last = x;
    last_slope = slope;
  }
  EXPECT_NEAR(last_slope, 1, 1e-9);
}

TEST(hub, squeezes_a_level_foot_evenly) {
  Hub hub = bowed();
  hub.foot_rise_mm = 0;
  const double radius = hub.radius_at(0), reach = hub.reach_at(0);
  for (const double share : {0.25, 0.5, 0.75})
    EXPECT_NEAR(hub.reachable({share * reach, 0}).x, radius + share * (reach - radius), 1e-12);
  EXPECT_LT(hub.reachable({0.5 * reach, 100}).x, radius + 0.1 * (reach - radius)) << "the top is still steep";
}

TEST(hub, takes_little_of_a_cone_drawn_to_a_point) {
  const Hub hub = bowed();
  // Half a right angle: paper that ends on the spine at the same height lies outside the cone by the triangle before
  // the spine at least; a tenth of the radius more would be a third of it more.
  double outside = 0, least = 0;
  constexpr double step = 0.05;
  for (double below_top = step / 2; below_top < 12; below_top += step) {
    const double z = 100 - below_top;
    outside += step * (hub.reachable({below_top, z}).x - below_top);
    least += step * std::max(0.0, hub.radius_at(z) - below_top);
  }
  EXPECT_GT(outside, least);
  EXPECT_LT(outside, 1.08 * least);
}

} // namespace
} // namespace fanwright::fit
