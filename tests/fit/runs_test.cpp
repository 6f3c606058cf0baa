#include "fit/runs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace fanwright::fit {
namespace {

/// From the spine outwards, level at height 20 as far as x 10, and straight back to the spine at height 60.
leaf::Contour roof() { return {{0, 20}, {leaf::Line{{10, 20}}, leaf::Line{{0, 60}}, leaf::Line{{0, 20}}}}; }

double widest_step(const Run& run, double from_x, double to_x) {
  double widest = 0;
  for (std::size_t k = 1; k < run.wanted.size(); ++k) {
    const leaf::Point a = run.wanted[k - 1], b = run.wanted[k];
    if (std::min(a.x, b.x) >= from_x && std::max(a.x, b.x) <= to_x)
      widest = std::max(widest, std::hypot(b.x - a.x, b.z - a.z));
  }
  return widest;
}

TEST(runs, begin_at_each_corner_and_leave_the_spine_out) {
  const auto runs = runs_of(roof(), 0, false);
  ASSERT_EQ(runs.size(), 2u);
  EXPECT_EQ(runs[0].wanted.back().x, 10);
  EXPECT_EQ(runs[1].wanted.back().z, 60);
}

TEST(runs, have_closer_points_near_the_axis_where_a_hub_stands) {
  const fit::Run plain = runs_of(roof(), 0, false)[1], with_hub = runs_of(roof(), 2, false)[1];
  EXPECT_GT(widest_step(plain, 0, 3), 1.4);
  EXPECT_LT(widest_step(with_hub, 0, 3), 0.5);
  EXPECT_GT(widest_step(with_hub, 7, 10), 1.0);
  EXPECT_LT(widest_step(with_hub, 0, 10), 1.6);
}

TEST(runs, are_cut_off_at_the_spine) {
  std::vector<fit::Run> runs = runs_of(roof(), 0, false);
  for (fit::Run& run : runs)
    for (leaf::Point& p : run.flat)
      p.x -= 2;
  const auto kept = clipped(runs);
  ASSERT_EQ(kept.size(), 2u);
  EXPECT_EQ(kept[0].front().x, 0);
  EXPECT_EQ(kept[1].back().x, 0);
  // The slope of 4 comes back to the spine 2 mm further in.
  EXPECT_NEAR(kept[1].back().z, 52, 1e-9);
}

TEST(runs, become_lines_or_curves) {
  fit::Run arch;
  for (int k = 0; k <= 40; ++k)
    arch.flat.push_back({20 + 20 * std::sin(0.05 * k), 40 - 20 * std::cos(0.05 * k)});
  arch.wanted = arch.flat;
  const auto parts = clipped({arch});
  const std::string lines = path_of(parts, std::nullopt, false), curves = path_of(parts, 0.05, false);
  EXPECT_EQ(lines.find('C'), std::string::npos);
  EXPECT_LT(curves.size(), lines.size() / 3);
}

} // namespace
} // namespace fanwright::fit
