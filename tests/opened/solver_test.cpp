#include "opened/solver.h"

#include "opened/panels.h"
#include "opened/spread.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fanwright::opened {
namespace {

Form solved(Solver& solver, const Panel& panel) {
  auto result = solver.open(panel);
  if (const auto* failure = std::get_if<Failure>(&result)) {
    ADD_FAILURE() << failure->sentence;
    return {};
  }
  return std::get<Form>(std::move(result));
}

/// The same equilibrium, to 0.02 % of the size, or another one of less energy; counts the former.
void expect_same(const Form& warm, const Form& cold, int& same) {
  const double size = std::max(cold.height_mm, cold.diameter_mm);
  // A solve from the guess may end in a neighbouring equilibrium, here with another bend of the leaf's foot: it then
  // holds more energy, by more than the 1e-6 that either solve leaves, and lies within 0.1 % of the size.
  const bool other = warm.energy_nmm() < (1 - 1e-5) * cold.energy_nmm();
  same += other ? 0 : 1;
  const double near = (other ? 1e-3 : 2e-4) * size;
  EXPECT_NEAR(warm.height_mm, cold.height_mm, near);
  EXPECT_NEAR(warm.diameter_mm, cold.diameter_mm, near);
  EXPECT_NEAR(warm.hub_radius_mm, cold.hub_radius_mm, near);
  EXPECT_NEAR(warm.foot_lift_mm, cold.foot_lift_mm, near);
  EXPECT_NEAR(warm.holding_moment_nmm / cold.holding_moment_nmm, 1, other ? 1e-2 : 2e-3);
}

TEST(opened, solver_starts_with_the_bits_of_a_solve_from_the_start) {
  Solver solver;
  EXPECT_EQ(solved(solver, small_panel()).holding_moment_nmm, std::get<Form>(open(small_panel())).holding_moment_nmm);
}

TEST(opened, more_and_fewer_leaves_from_the_last_form_are_the_forms_from_the_start) {
  int same = 0;
  for (Panel panel : {small_panel(), sloped_panel()}) {
    Solver solver;
    solved(solver, panel);
    for (const int leaves : {26, 28, 24}) {
      panel.leaves = leaves;
      const Form cold = std::get<Form>(open(panel));
      const Form warm = solved(solver, panel);
      EXPECT_EQ(warm.wedge_rad, cold.wedge_rad);
      EXPECT_LT(warm.factorisations, cold.factorisations);
      expect_same(warm, cold, same);
    }
  }
  EXPECT_GE(same, 4);
}

TEST(opened, a_smaller_opening_and_other_paper_from_the_last_form_are_the_forms_from_the_start) {
  int same = 0;
  Solver solver;
  Panel panel = sloped_panel();
  solved(solver, panel);
  panel.opening_deg = 330;
  expect_same(solved(solver, panel), std::get<Form>(open(panel)), same);
  panel.sheet.thickness_mm = 0.22;
  panel.sheet.modulus_z_mpa = 5000;
  expect_same(solved(solver, panel), std::get<Form>(open(panel)), same);
  EXPECT_EQ(same, 2);
}

TEST(opened, quick_answers_beside_a_leaf_that_has_grown_by_some_millimetres_are_at_rest) {
  Options quick;
  quick.detail = Detail::quick;
  for (const Panel& start : {small_panel(), sloped_panel()}) {
    for (const double wider : {2.0, 4.0, 5.5}) {
      Panel next = start;
      next.outline[1].x += wider;
      next.outline[2].x += wider / 2;
      Solver solver;
      static_cast<void>(solver.open(start, quick));
      const auto beside = solver.open_beside(next, quick);
      ASSERT_TRUE(beside);
      const Form cold = std::get<Form>(open(next, quick));
      EXPECT_LT(beside->energy_nmm(), 1.25 * cold.energy_nmm()) << wider;
      EXPECT_NEAR(beside->height_mm, cold.height_mm, 5e-3 * cold.height_mm);
      EXPECT_NEAR(beside->diameter_mm, cold.diameter_mm, 5e-3 * cold.diameter_mm);
    }
  }
}

TEST(opened, a_moved_outline_or_row_from_the_last_form_is_the_form_from_the_start) {
  int same = 0;
  for (const Panel& start : {small_panel(), sloped_panel()}) {
    Panel wider = start;
    wider.outline[1].x += 2;
    wider.outline[2].x += 1;
    Panel higher_row = start;
    higher_row.rows[2].from.z += 1;
    higher_row.rows[2].to.z += 1;
    Panel all = wider;
    all.rows = higher_row.rows;
    all.leaves += 2;
    for (const Panel& changed : {wider, higher_row, all}) {
      Solver solver;
      solved(solver, start);
      const Form cold = std::get<Form>(open(changed));
      const Form warm = solved(solver, changed);
      EXPECT_EQ(warm.unknowns, cold.unknowns);
      EXPECT_LT(warm.factorisations, cold.factorisations);
      expect_same(warm, cold, same);
    }
  }
  EXPECT_GE(same, 4);
}

TEST(opened, a_row_raised_by_any_amount_is_not_left_amid_the_descent) {
  // One small step by chance ended the descent now and then, which of these cases depends on the processor.
  const Panel start = sloped_panel();
  const Form first = std::get<Form>(open(start));
  int same = 0;
  for (int k = 1; k <= 12; ++k) {
    Panel changed = start;
    changed.rows[2].from.z += 0.15 * k;
    changed.rows[2].to.z += 0.15 * k;
    Solver solver(start, first);
    const Form warm = solved(solver, changed);
    const Form cold = std::get<Form>(open(changed));
    EXPECT_LT(warm.energy_nmm(), (1 + 5e-5) * cold.energy_nmm()) << "raised by " << 0.15 * k << " mm";
    expect_same(warm, cold, same);
  }
  EXPECT_GE(same, 8);
}

TEST(opened, a_dragged_point_stays_true_over_many_steps) {
  Solver solver;
  Panel panel = sloped_panel();
  for (int k = 0; k < 8; ++k) {
    solved(solver, panel);
    panel.outline[2].x += 0.7;
  }
  int same = 0;
  expect_same(solved(solver, panel), std::get<Form>(open(panel)), same);
}

TEST(opened, a_quick_answer_stays_true_over_many_steps) {
  Options quick;
  quick.detail = Detail::quick;
  for (Panel panel : {small_panel(), sloped_panel()}) {
    Solver solver;
    for (int k = 0; k < 8; ++k) {
      ASSERT_TRUE(std::holds_alternative<Form>(solver.open(panel, quick)));
      panel.outline[2].x += 0.7;
      panel.rows[1].from.z -= 0.2;
      panel.rows[1].to.z -= 0.2;
    }
    const Form dragged = std::get<Form>(solver.open(panel, quick));
    const Form converged = std::get<Form>(open(panel));
    EXPECT_LE(dragged.factorisations, 2);
    ASSERT_EQ(dragged.edge.size(), converged.edge.size());
    const double size = std::max(converged.height_mm, converged.diameter_mm);
    for (std::size_t k = 0; k < dragged.edge.size(); ++k) {
      EXPECT_NEAR(dragged.edge[k].radius, converged.edge[k].radius, 0.005 * size);
      EXPECT_NEAR(dragged.edge[k].height, converged.edge[k].height, 0.005 * size);
    }
  }
}

TEST(opened, a_leaf_that_is_no_neighbour_is_opened_from_the_start) {
  Panel wide = small_panel();
  wide.outline[1].x += 10;
  wide.outline[2].x += 10;
  Panel other_side = small_panel();
  other_side.rows[3].side = design::Side::inside;
  Panel with_hole = small_panel();
  with_hole.cut_outs = sloped_panel().cut_outs;
  for (const Panel& changed : {wide, other_side, with_hole}) {
    Solver solver;
    solved(solver, small_panel());
    EXPECT_EQ(solved(solver, changed).holding_moment_nmm, std::get<Form>(open(changed)).holding_moment_nmm);
  }
}

TEST(opened, solver_goes_on_after_a_cancelled_call_and_a_refused_panel) {
  Solver solver;
  Panel panel = small_panel();
  solved(solver, panel);
  panel.leaves = 26;
  Options options;
  options.cancelled = [] { return true; };
  const auto stopped = solver.open(panel, options);
  ASSERT_TRUE(std::holds_alternative<Failure>(stopped));
  EXPECT_EQ(std::get<Failure>(stopped).sentence, "Cancelled.");
  Panel without_rows = panel;
  without_rows.rows.clear();
  EXPECT_TRUE(std::holds_alternative<Failure>(solver.open(without_rows)));
  int same = 0;
  expect_same(solved(solver, panel), std::get<Form>(open(panel)), same);
}

TEST(opened, a_form_from_another_has_a_spread) {
  Solver solver;
  Panel panel = small_panel();
  solved(solver, panel);
  panel.leaves = 26;
  const Form warm = solved(solver, panel);
  const auto from_warm = spread(panel, warm);
  const auto from_cold = spread(panel, std::get<Form>(open(panel)));
  EXPECT_NEAR(std::get<Spread>(from_warm).height_mm, std::get<Spread>(from_cold).height_mm, 0.02);
  EXPECT_NEAR(std::get<Spread>(from_warm).diameter_mm, std::get<Spread>(from_cold).diameter_mm, 0.02);
}

} // namespace
} // namespace fanwright::opened
