// Every line of the verification table within its bar.
#include "opened/elastica.h"
#include "opened/ornament_checks.h"
#include "opened/plate_checks.h"
#include "opened/strip_checks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::opened {
namespace {

void expect_within_bars(const Checks& checks) {
  for (const Check& check : checks) {
    std::printf("%-40s %-24s %10.5f %10.5f %8.3f %%  %d points\n", check.subject.c_str(), check.measure.c_str(),
                check.expected, check.found, 100 * check.error(), check.points);
    EXPECT_LE(std::abs(check.error()), check.bar)
        << check.subject << ", " << check.measure << ": expected " << check.expected << " (" << check.source
        << "), found " << check.found;
  }
}

TEST(verification, elastica_integrated_here_has_the_published_values) {
  // Int. J. Numer. Methods Eng. 17 (1981) 145-153, table 1: tip drop and shortening at alpha.
  EXPECT_NEAR(cantilever(1, 0).drop, 0.30172, 1e-5);
  EXPECT_NEAR(1 - cantilever(1, 0).reach, 0.05643, 1e-5);
  EXPECT_NEAR(cantilever(10, 0).drop, 0.81061, 1e-5);
  EXPECT_NEAR(1 - cantilever(10, 0).reach, 0.55500, 1e-5);
  // Droop test, ASTM D1388: the chord falls 41.5 degrees where the bending length is half of the overhang, lambda 8.
  const Elastica droop = cantilever(0, 8);
  EXPECT_NEAR(std::atan2(droop.drop, droop.reach) * 180 / std::numbers::pi, 41.5, 0.02);
  // Small loads: P L^3 / 3 E I and w L^4 / 8 E I.
  EXPECT_NEAR(cantilever(1e-3, 0).drop, 1e-3 / 3, 1e-9);
  EXPECT_NEAR(cantilever(0, 1e-3).drop, 1e-3 / 8, 1e-9);
}

TEST(verification, cantilever_with_end_shear) { expect_within_bars(end_shear_checks()); }
TEST(verification, cantilever_rolled_by_an_end_moment) { expect_within_bars(end_moment_checks()); }
TEST(verification, cantilever_under_its_own_weight) { expect_within_bars(own_weight_checks()); }
TEST(verification, strip_between_offset_clamps) { expect_within_bars(offset_clamp_checks()); }
TEST(verification, slit_ring_lifted_at_one_lip) { expect_within_bars(slit_ring_checks()); }
TEST(verification, square_plates) { expect_within_bars(square_plate_checks()); }
TEST(verification, strips_cut_slantwise_to_the_grain) { expect_within_bars(grain_checks()); }
TEST(verification, edges_of_an_independent_solver) { expect_within_bars(reference_checks()); }
TEST(verification, rim_and_lock) { expect_within_bars(rim_checks()); }
TEST(verification, raised_turned_swapped_and_scaled_panels) { expect_within_bars(invariance_checks()); }
TEST(verification, holding_moments) { expect_within_bars(moment_checks()); }

TEST(verification, errors_fall_with_the_square_of_the_cells_size) {
  // Splines of second degree on an equation of fourth order.
  EXPECT_GT(std::log2(end_shear_error(9) / end_shear_error(18)), 1.8);
  EXPECT_GT(std::log2(offset_clamp_error(12) / offset_clamp_error(24)), 1.8);
}

} // namespace
} // namespace fanwright::opened
