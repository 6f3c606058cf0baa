#include "opened/division.h"

#include "opened/grid.h"
#include "opened/panels.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fanwright::opened {
namespace {

int by_four(double length) { return static_cast<int>(std::ceil(length / 4)); }

/// Stretches of these places, cut by cells of 4 mm.
Stretches cut_up(const std::vector<double>& wanted, const Division* before) {
  Stretches stretches(wanted, 1.0, before);
  for (std::size_t k = 0; k < stretches.count(); ++k)
    stretches.cells(k, by_four);
  return stretches;
}

TEST(opened, places_near_each_other_become_one_line) {
  const Stretches stretches = cut_up({0, 40, 20.4, 12, 20, 39.5}, nullptr);
  ASSERT_EQ(stretches.count(), 3u); // what lies within 1 mm of the end has no line of its own
  EXPECT_EQ(stretches.from(1), 12);
  EXPECT_NEAR(stretches.to(1), 20.2, 1e-12);
  EXPECT_EQ(stretches.to(2), 40);
  EXPECT_EQ(stretches.division().joined, (std::vector<std::vector<int>>{{0}, {3}, {4, 2}, {1}}));
  EXPECT_EQ(stretches.division().cells, (std::vector<int>{3, 3, 5}));
}

TEST(opened, what_moves_a_little_is_cut_as_before) {
  const Division before = cut_up({0, 40, 20.4, 12, 20}, nullptr).division();
  const std::vector<double> moved{0, 40.5, 20.9, 12.3, 19.8}; // two of them now 1.1 mm apart
  const Stretches kept = cut_up(moved, &before);
  EXPECT_EQ(kept.division().joined, before.joined);
  EXPECT_EQ(kept.division().cells, before.cells);
  EXPECT_EQ(kept.from(1), 12.3);
  EXPECT_NEAR(kept.to(1), 20.35, 1e-12);
  EXPECT_EQ(kept.to(2), 40.5);
  const Stretches anew = cut_up(moved, nullptr);
  EXPECT_NE(anew.division().joined, before.joined);
}

TEST(opened, what_moves_far_is_cut_anew) {
  const Division before = cut_up({0, 40, 20.4, 12, 20}, nullptr).division();
  const std::vector<double> apart{0, 40, 24, 12, 20}, nearer{0, 40, 20.4, 20, 20}, other{0, 40, 12};
  for (const std::vector<double>& wanted : {apart, nearer, other})
    EXPECT_EQ(cut_up(wanted, &before).division().joined, cut_up(wanted, nullptr).division().joined);
  // Twice as long: no cell is wider than a stretch that is 15 % shorter would have them.
  const Stretches longer = cut_up({0, 80, 40.4, 24, 40}, &before);
  for (std::size_t k = 0; k < longer.count(); ++k)
    EXPECT_LE(longer.length(k) / longer.division().cells[k], 4 / (1 - kept_stretch_share) + 1e-9);
}

TEST(opened, a_leaf_beside_another_keeps_the_cells_of_its_grid) {
  const Panel panel = small_panel();
  const Fineness fineness{3.7, 6, 0, 1.2};
  const Grid before(panel, fineness);
  bool anew_differs = false;
  for (int k = 1; k <= 10; ++k) {
    Panel wider = panel;
    for (leaf::Point& p : wider.outline)
      p.x *= 1 + 0.005 * k;
    for (leaf::GlueRow& row : wider.rows)
      row.to.x *= 1 + 0.005 * k;
    const Grid beside(wider, fineness, &before), anew(wider, fineness);
    EXPECT_EQ(beside.cells_across(), before.cells_across());
    EXPECT_EQ(beside.cells_up(), before.cells_up());
    anew_differs = anew_differs || anew.cells_across() != before.cells_across();
  }
  EXPECT_TRUE(anew_differs);
}

} // namespace
} // namespace fanwright::opened
