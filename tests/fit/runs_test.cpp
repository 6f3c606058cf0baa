#include "fit/runs.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fanwright::fit {
namespace {

/// From the foot of the spine outwards and up, level at (10.4, 20), and steeply back to the spine; a point each mm.
Run roof(double turn_at_x) {
  Run run;
  for (double x = 1; x < 10.4; x += 1)
    run.flat.push_back({x, 20});
  const std::size_t last = run.flat.size() - 1;
  for (double z = 20.7; z < 27; z += 1)
    run.flat.push_back({turn_at_x - (z - 20) * 0.2, z});
  run.wanted = run.flat;
  run.kinks = {last};
  return run;
}

TEST(runs, are_parted_at_a_kink_where_both_sides_meet) {
  const auto parts = clipped({roof(10.4)});
  ASSERT_GE(parts.size(), 2u);
  const leaf::Point corner = parts[0].back();
  EXPECT_NEAR(corner.x, 10.4, 1e-9);
  EXPECT_NEAR(corner.z, 20, 1e-9);
  EXPECT_EQ(parts[1].front().x, corner.x);
  EXPECT_EQ(parts[1].front().z, corner.z);
}

TEST(runs, go_on_where_a_kink_hardly_turns) {
  fit::Run run;
  for (int k = 0; k < 12; ++k)
    run.flat.push_back({1.0 + k, 20 + (k > 5 ? 0.1 * (k - 5) : 0.0)});
  run.wanted = run.flat;
  run.kinks = {5};
  // The one stretch, and the way back to the spine.
  EXPECT_EQ(clipped({run}).size(), 2u);
}

TEST(runs, become_lines_or_curves) {
  const auto parts = clipped({roof(10.4)});
  const std::string lines = path_of(parts, std::nullopt, false), curves = path_of(parts, 0.05, false);
  EXPECT_EQ(lines.find('C'), std::string::npos);
  EXPECT_LT(curves.size(), lines.size() / 3);
}

} // namespace
} // namespace fanwright::fit
