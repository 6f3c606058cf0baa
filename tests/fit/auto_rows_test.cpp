#include "fit/drawing.h"
#include "fit/leaf_of.h"
#include "leaf/contour.h"
#include "leaf/region.h"
#include "leaf/strip.h"
#include "opened/opened.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace fanwright::fit {
namespace {

design::Design placed(const std::string& path, design::Shows shows, int leaves,
                      design::Look look = design::Look::usual) {
  design::Design design;
  design.title = "Urn";
  design.silhouette_path = path;
  design.shows = shows;
  design.making.bead_mm = 0.5;
  design::Size size;
  size.name = "one";
  size.leaves = leaves;
  size.rows = design::AutoRows{look, design::Side::inside, {}, {}, {}};
  size.paper = paper::typical_paper(120);
  design.sizes = {size};
  return design;
}

leaf::Leaf leaf_for(const design::Design& design) {
  auto leaf = leaf_of(design, design.sizes[0]);
  if (const auto* failure = std::get_if<Failure>(&leaf)) {
    ADD_FAILURE() << failure->where << ": " << failure->sentence;
    return {};
  }
  return std::get<leaf::Leaf>(std::move(leaf));
}

opened::Form opened_form(const leaf::Leaf& leaf, const design::Design& design) {
  return std::get<opened::Form>(opened::open(opened::panel_of(leaf, design.sizes[0])));
}

const std::string bell = "M 0 0 L 42 0 C 38 14 34 20 32 40 C 30 66 27 92 12 110 C 8 115 4 117 0 118";
const std::string ball = "M 0 0 C 8 0 20 1 30 8 C 46 20 50 36 50 50 C 50 64 46 80 30 92 C 20 99 8 100 0 100";
const std::string tiers = "M 0 0 H 14 V 20 L 46 15 C 44 34 22 40 18 62 L 36 57 C 34 76 14 84 12 100 L 26 96 "
                          "C 24 114 8 120 0 132";
const std::string slim = "M 0 0 H 18 C 26 40 24 60 14 90 C 10 110 22 130 20 150 C 18 164 8 170 0 170";

/// How the rows of a dense bell come to lie with so many leaves, `before` given or not.
RowChoice rows_of_bell(int leaves, const std::optional<RowChoice>& before = {}) {
  const design::Design design = placed(bell, design::Shows::opened, leaves, design::Look::dense);
  design::Size size = design.sizes[0];
  return std::get<Drawing>(begun(design, size, before)).placed.value();
}

TEST(fit, placed_rows_that_follow_a_change_keep_their_number_while_they_may) {
  int kept = 0;
  RowChoice before = rows_of_bell(48);
  for (int leaves = 47; leaves >= 16; --leaves) {
    const RowChoice alone = rows_of_bell(leaves), following = rows_of_bell(leaves, before);
    if (alone.count != before.count) {
      kept += following.count == before.count ? 1 : 0;
      EXPECT_TRUE(following.count == before.count || following.count == alone.count) << leaves;
      EXPECT_GE(following.covered, std::min(0.995, alone.covered - 0.01)) << leaves;
    }
    before = alone;
  }
  EXPECT_GE(kept, 1);
  // A third of the leaves asks for other rows, whatever lay there before.
  EXPECT_EQ(rows_of_bell(16, rows_of_bell(48)).count, rows_of_bell(16).count);
  EXPECT_NE(rows_of_bell(16).count, rows_of_bell(48).count);
}

TEST(fit, leaves_with_placed_rows_open_without_straining_the_paper) {
  for (const std::string& path : {bell, ball, tiers, slim}) {
    for (const int leaves : {24, 44}) {
      const design::Design design = placed(path, design::Shows::flat, leaves);
      const opened::Form form = opened_form(leaf_for(design), design);
      EXPECT_LE(form.lock_ratio, 0.7) << path << ", " << leaves << " leaves";
      // Paper breaks in tension at some 2 % along the grain (from memory).
      EXPECT_LT(form.peak_strain, 0.02) << path << ", " << leaves << " leaves";
    }
  }
}

TEST(fit, looks_change_the_opened_cells_as_they_say) {
  const auto lock = [](design::Look look) {
    const design::Design design = placed("M 0 0 H 50 V 170 H 0", design::Shows::flat, 24, look);
    return opened_form(leaf_for(design), design).lock_ratio;
  };
  const double open = lock(design::Look::open), usual = lock(design::Look::usual), dense = lock(design::Look::dense);
  EXPECT_LT(open, usual);
  EXPECT_LT(usual, dense);
  // Whole rows and an odd number of them come no nearer.
  EXPECT_NEAR(open, 0.35, 0.05);
  EXPECT_NEAR(usual, 0.45, 0.05);
  EXPECT_NEAR(dense, 0.57, 0.05);
}

TEST(fit, placed_rows_lie_level_and_where_they_were_chosen_in_the_opened_ornament) {
  for (const std::string& path : {bell, tiers}) {
    const design::Design design = placed(path, design::Shows::opened, 32);
    const leaf::Leaf leaf = leaf_for(design);
    const opened::Form form = opened_form(leaf, design);
    ASSERT_GE(leaf.rows.size(), 5u);
    EXPECT_EQ(leaf.rows.size() % 2, 1u);
    for (const leaf::GlueRow& row : leaf.rows) {
      // 0.2 % of the size, as the outline itself.
      EXPECT_NEAR(form.place(row.to)[2], form.place(row.from)[2], 0.3) << path;
    }
    // A bead of 0.5 mm makes rows of 2.5 mm and gaps of 2.5 mm: the lowest row's middle stands 3.75 mm above the foot.
    EXPECT_NEAR(form.place(leaf.rows.front().to)[2], 3.75, 0.3) << path;
  }
}

TEST(fit, derived_leaves_keep_placed_rows_off_their_edges_and_spine) {
  for (const std::string& path : {bell, ball, tiers, slim}) {
    const leaf::Leaf leaf = leaf_for(placed(path, design::Shows::opened, 40));
    const leaf::Region paper(leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm));
    for (const leaf::GlueRow& row : leaf.rows) {
      const auto strip = leaf::corners(row);
      // Half the gap of 2.5 mm; a tenth of a millimetre of it may go with the outline's own.
      EXPECT_GT(paper.distance_to_boundary(leaf::Ring(strip.begin(), strip.end())), 1.15) << path;
      EXPECT_NEAR(row.from.x, 2.5, 0.02) << path;
      EXPECT_GT(row.to.x - row.from.x, 2.5) << path;
    }
  }
}

TEST(fit, each_tier_of_the_opened_ornament_has_a_row_at_its_tip) {
  const design::Design design = placed(tiers, design::Shows::opened, 40);
  const leaf::Leaf leaf = leaf_for(design);
  const opened::Form form = opened_form(leaf, design);
  // The lowest strip of 2.5 mm above the neck's corner, half the gap of 2.5 mm above it.
  for (const double corner_z : {20.0, 62.0, 100.0}) {
    double nearest = 1e300;
    for (const leaf::GlueRow& row : leaf.rows) {
      nearest = std::min(nearest, std::abs(form.place(row.to)[2] - (corner_z + 2.5)));
    }
    EXPECT_LT(nearest, 1.0) << corner_z;
  }
}

TEST(fit, derived_placed_rows_are_the_same_on_every_run) {
  const design::Design design = placed(bell, design::Shows::opened, 32);
  const leaf::Leaf a = leaf_for(design), b = leaf_for(design);
  ASSERT_EQ(a.rows.size(), b.rows.size());
  for (std::size_t k = 0; k < a.rows.size(); ++k) {
    EXPECT_EQ(a.rows[k].to.x, b.rows[k].to.x);
    EXPECT_EQ(a.rows[k].to.z, b.rows[k].to.z);
  }
}

TEST(fit, placed_rows_that_would_lock_fail_the_check_and_name_a_leaf_count_that_opens) {
  for (const design::Shows shows : {design::Shows::flat, design::Shows::opened}) {
    design::Design design = placed("M 0 0 H 90 C 92 20 92 40 80 60 H 0", shows, 6);
    const auto result = leaf_of(design, design.sizes[0]);
    ASSERT_TRUE(std::holds_alternative<Failure>(result));
    const Failure& failure = std::get<Failure>(result);
    EXPECT_TRUE(failure.fails_check);
    const auto at = failure.sentence.find("at least ");
    ASSERT_NE(at, std::string::npos) << failure.sentence;
    design.sizes[0].leaves = std::stoi(failure.sentence.substr(at + 9));
    EXPECT_LE(opened_form(leaf_for(design), design).lock_ratio, 0.7);
  }
}

TEST(fit, a_leaf_without_room_for_placed_rows_is_a_mistake_in_the_file) {
  design::Design design = placed(ball, design::Shows::opened, 32);
  design.making.bead_mm = 5;
  const auto result = leaf_of(design, design.sizes[0]);
  ASSERT_TRUE(std::holds_alternative<Failure>(result));
  EXPECT_FALSE(std::get<Failure>(result).fails_check);
}

} // namespace
} // namespace fanwright::fit
