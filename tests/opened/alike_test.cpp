#include "opened/alike.h"

#include "opened/equilibrium.h"
#include "panels.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

namespace fanwright::opened {
namespace {

Panel with_row_moved(Panel panel) {
  panel.rows[2].from.z += 1;
  panel.rows[2].to.z += 1;
  return panel;
}

Panel with_outline_moved(Panel panel) {
  panel.outline[2].z += 2;
  panel.outline[3].z += 2;
  return panel;
}

std::size_t alike_ones(const std::vector<int>& alike) {
  return static_cast<std::size_t>(std::ranges::count_if(alike, [](int piece) { return piece >= 0; }));
}

TEST(opened, a_sheet_made_beside_another_is_the_sheet_made_alone) {
  for (const Panel& panel : {small_panel(), sloped_panel()}) {
    const Equilibrium before = *std::get<Form>(open(panel)).equilibrium;
    for (const Panel& changed : {with_row_moved(panel), with_outline_moved(panel)}) {
      const Laid alone = std::get<Laid>(lay(changed, {}));
      const Laid beside = std::get<Laid>(lay(changed, {}, &before));
      EXPECT_GT(alike_ones(beside.alike), beside.alike.size() / 3);
      EXPECT_LT(alike_ones(beside.alike), beside.alike.size());
      Vector unknowns = Vector::LinSpaced(alone.mechanics.unknowns(), 1, 2);
      Vector gradient_alone, gradient_beside;
      Matrix hessian_alone = alone.mechanics.pattern();
      Matrix hessian_beside = beside.mechanics.pattern();
      const Forces forces = alone.mechanics.forces(unknowns);
      EXPECT_EQ(alone.mechanics.derivatives(unknowns, forces, Bends::as_arcs, gradient_alone, hessian_alone),
                beside.mechanics.derivatives(unknowns, forces, Bends::as_arcs, gradient_beside, hessian_beside));
      EXPECT_EQ((gradient_alone - gradient_beside).cwiseAbs().maxCoeff(), 0);
      EXPECT_EQ((hessian_alone - hessian_beside).norm(), 0);
    }
  }
}

TEST(opened, a_sheet_of_the_same_leaf_is_alike_all_over_and_one_of_other_rows_nowhere) {
  const Panel panel = sloped_panel();
  const Laid sheet = std::get<Laid>(lay(panel, {}));
  const std::vector<int> same = alike_pieces({sheet.grid, sheet.pieces}, {sheet.grid, sheet.pieces});
  for (std::size_t p = 0; p < same.size(); ++p) {
    EXPECT_EQ(same[p], static_cast<int>(p));
  }
  Panel all_moved = panel;
  for (leaf::GlueRow& row : all_moved.rows) {
    row.from.z += 0.5;
    row.to.z += 0.5;
  }
  const Laid other = std::get<Laid>(lay(all_moved, {}));
  EXPECT_EQ(alike_ones(alike_pieces({other.grid, other.pieces}, {sheet.grid, sheet.pieces})), 0u);
}

TEST(opened, a_sheet_in_other_paper_takes_nothing_over) {
  Panel panel = small_panel();
  const Equilibrium before = *std::get<Form>(open(panel)).equilibrium;
  panel.sheet.thickness_mm *= 1.2;
  const Laid alone = std::get<Laid>(lay(panel, {}));
  const Laid beside = std::get<Laid>(lay(panel, {}, &before));
  const Vector unknowns = Vector::LinSpaced(alone.mechanics.unknowns(), 1, 2);
  EXPECT_EQ(alone.mechanics.energy(unknowns), beside.mechanics.energy(unknowns));
}

} // namespace
} // namespace fanwright::opened
