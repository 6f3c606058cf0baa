#include "picture/occlusion.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

/// A flat upright strip in the middle of its wedge, from `inner` to `outer` mm off the axis.
HalfPanel strip(double inner, double outer, double height, double wedge_rad) {
  HalfPanel half;
  constexpr int across = 12, up = 12;
  const double c = std::cos(wedge_rad / 2), s = std::sin(wedge_rad / 2);
  for (int j = 0; j <= up; ++j)
    for (int i = 0; i <= across; ++i) {
      const double r = inner + (outer - inner) * i / across, z = height * j / up;
      half.points.push_back({r * c, r * s, z});
      half.normals.push_back({s, -c, 0});
      half.flat.push_back({r, z});
    }
  for (int j = 0; j < up; ++j)
    for (int i = 0; i < across; ++i) {
      const int a = j * (across + 1) + i, b = a + 1, d = a + across + 1, e = d + 1;
      half.triangles.push_back({a, b, e});
      half.triangles.push_back({a, e, d});
    }
  return half;
}

TEST(occlusion, a_sheet_alone_sees_the_whole_sky) {
  // Two panels of half a turn each: neither sees the other at all.
  for (const float open : openness(strip(5, 50, 80, std::numbers::pi), std::numbers::pi))
    EXPECT_GT(open, 0.9F);
}

TEST(occlusion, is_darker_inside_and_between_many_panels) {
  const auto mean_near = [](const std::vector<float>& open, bool outside) {
    double sum = 0;
    int count = 0;
    for (std::size_t k = 0; k < open.size(); ++k)
      if (k / 13 > 3 && k / 13 < 9 && (outside ? k % 13 > 10 : k % 13 < 3)) {
        sum += open[k];
        ++count;
      }
    return sum / count;
  };
  double before = 1;
  for (const int panels : {8, 24, 80}) {
    const double wedge = 2 * std::numbers::pi / panels;
    const auto open = openness(strip(5, 50, 80, wedge), wedge);
    ASSERT_EQ(open.size(), 13U * 13U);
    EXPECT_LT(mean_near(open, false), mean_near(open, true)) << panels;
    EXPECT_LT(mean_near(open, true), before) << panels;
    before = mean_near(open, true);
  }
}

TEST(occlusion, between_close_parallel_sheets_goes_as_the_view_factor) {
  // Far from the axis two neighbours are nearly parallel. At the open edge of two long parallel sheets half of the sky
  // of each side is seen; deep inside, at a depth many gaps from every edge, next to nothing. (Geometry of view
  // factors.)
  constexpr int panels = 400;
  const double wedge = 2 * std::numbers::pi / panels;
  const auto open = openness(strip(900, 1000, 100, wedge), wedge);
  EXPECT_LT(open[6 * 13 + 6], 0.12F);
  EXPECT_GT(open[6 * 13 + 12], 0.3F);
  EXPECT_LT(open[6 * 13 + 12], 0.6F);
}

} // namespace
} // namespace fanwright::picture
