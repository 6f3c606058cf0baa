#include "opened/carried.h"

#include "panels.h"

#include <gtest/gtest.h>

#include <numbers>
#include <variant>

namespace fanwright::opened {
namespace {

constexpr double wedge_step = 1e-4; // a share of the wedge

/// A form brought away from rest: every control point that is free is a little off.
Equilibrium unrested(const Panel& panel) {
  Equilibrium form = *std::get<Form>(open(panel)).equilibrium;
  for (Eigen::Index k = 0; k < form.unknowns.size(); ++k) {
    form.unknowns[k] += 0.02 * std::sin(0.7 * static_cast<double>(k));
  }
  return form;
}

Eigen::Matrix3Xd carried(const Equilibrium& form, double thickness_mm, double wedge_rad) {
  Eigen::Matrix3Xd places = form.mechanics.places(form.unknowns);
  carry_into_wedge(form, thickness_mm, wedge_rad, {form.grid, form.pieces}, places);
  return places;
}

TEST(opened, moves_with_the_wedge_agree_with_finite_differences_of_what_is_carried) {
  for (const Panel& panel : {small_panel(), sloped_panel()}) {
    const Equilibrium form = unrested(panel);
    const double step = wedge_step * form.mechanics.wedge_rad();
    const Eigen::Matrix3Xd wider = carried(form, panel.sheet.thickness_mm, form.mechanics.wedge_rad() + step);
    const Eigen::Matrix3Xd narrower = carried(form, panel.sheet.thickness_mm, form.mechanics.wedge_rad() - step);
    const Eigen::Matrix3Xd differences = (wider - narrower) / (2 * step);
    const Eigen::Matrix3Xd moves = moves_with_wedge(form);
    EXPECT_LT((moves - differences).cwiseAbs().maxCoeff(), 1e-5 * moves.cwiseAbs().maxCoeff());
  }
}

TEST(opened, holding_moment_agrees_with_finite_differences_of_the_energy_carried) {
  for (const Panel& panel : {small_panel(), sloped_panel()}) {
    const Equilibrium form = unrested(panel);
    const double step = wedge_step * form.mechanics.wedge_rad();
    const auto energy = [&](double wedge_rad) {
      Mechanics mechanics = form.mechanics.in_wedge_of(wedge_rad);
      Eigen::Matrix3Xd places = carried(form, panel.sheet.thickness_mm, wedge_rad);
      mechanics.settle(places);
      mechanics.pin_height(places);
      return mechanics.energy(mechanics.unknowns_of(places));
    };
    const double slope =
        (energy(form.mechanics.wedge_rad() + step) - energy(form.mechanics.wedge_rad() - step)) / (2 * step);
    const double moment = form.mechanics.holding_moment(form.mechanics.places(form.unknowns), moves_with_wedge(form));
    EXPECT_NEAR(moment / slope, 1, 1e-5);
  }
}

/// A leaf bulging to `width` mm, with the straight one's rows.
Panel bulging_panel(double width) {
  Panel panel = small_panel();
  panel.outline = {{0, 0}, {36, 0}};
  for (int k = 1; k < 24; ++k) {
    const double share = k / 24.0;
    panel.outline.push_back({36 + (width - 36) * std::sin(std::numbers::pi * share), 60 * share});
  }
  panel.outline.insert(panel.outline.end(), {{36, 60}, {0, 60}});
  for (leaf::GlueRow& row : panel.rows) {
    row.to.x = 33;
  }
  return panel;
}

TEST(opened, a_sheet_carried_to_a_wider_leaf_goes_on_straight_beyond_the_old_edge) {
  const auto form = std::get<Form>(open(bulging_panel(42))).equilibrium;
  const double before = form->mechanics.energy(form->unknowns);
  for (const double width : {43.0, 45.0, 47.5}) {
    Laid sheet = std::get<Laid>(lay(bulging_panel(width), {}, form.get()));
    Eigen::Matrix3Xd places = carried_to_leaf(*form, {sheet.grid, sheet.pieces}, sheet.alike);
    sheet.mechanics.settle(places);
    sheet.mechanics.pin_height(places);
    EXPECT_LT(sheet.mechanics.energy(sheet.mechanics.unknowns_of(places)), 10 * before) << width;
  }
}

} // namespace
} // namespace fanwright::opened
