#include "opened/spline.h"

#include <gtest/gtest.h>

#include <cmath>
#include <rapidcheck/gtest.h>

namespace fanwright::opened {
namespace {

Spline uneven() { return Spline({0.0, 1.5, 3.0, 7.0, 7.9, 12.0}); }

RC_GTEST_PROP(opened, splines_sum_to_one_and_make_the_identity_from_their_greville_places, ()) {
  const Spline spline = uneven();
  const double x = *rc::gen::inRange(0, 12001) / 1000.0;
  const int cell = spline.cell_of(x);
  const SplineValues s = spline.at(cell, x);
  double sum = 0;
  double place = 0;
  double pace = 0;
  for (int k = 0; k < 3; ++k) {
    const auto i = static_cast<std::size_t>(k);
    sum += s.value[i];
    place += s.value[i] * spline.greville(cell + k);
    pace += s.first[i] * spline.greville(cell + k);
  }
  RC_ASSERT(std::abs(sum - 1) < 1e-12);
  RC_ASSERT(std::abs(place - x) < 1e-12);
  RC_ASSERT(std::abs(pace - 1) < 1e-12);
}

TEST(opened, spline_derivatives_agree_with_finite_differences) {
  const Spline spline = uneven();
  const double h = 1e-5;
  for (const double x : {0.4, 2.2, 5.0, 7.5, 11.0}) {
    const int cell = spline.cell_of(x);
    const SplineValues low = spline.at(cell, x - h);
    const SplineValues mid = spline.at(cell, x);
    const SplineValues high = spline.at(cell, x + h);
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_NEAR(mid.first[k], (high.value[k] - low.value[k]) / (2 * h), 1e-8);
      EXPECT_NEAR(mid.second[k], (high.first[k] - low.first[k]) / (2 * h), 1e-8);
    }
  }
}

TEST(opened, splines_join_with_a_common_slope) {
  const Spline spline = uneven();
  for (int cell = 0; cell + 1 < spline.cells(); ++cell) {
    const double x = spline.line(cell + 1);
    const SplineValues left = spline.at(cell, x);
    const SplineValues right = spline.at(cell + 1, x);
    EXPECT_NEAR(left.value[0], 0, 1e-14);
    EXPECT_NEAR(right.value[2], 0, 1e-14);
    for (std::size_t k = 0; k < 2; ++k) {
      EXPECT_NEAR(left.value[k + 1], right.value[k], 1e-13);
      EXPECT_NEAR(left.first[k + 1], right.first[k], 1e-13);
    }
  }
}

} // namespace
} // namespace fanwright::opened
