#include "opened/carried.h"

#include "panels.h"

#include <gtest/gtest.h>

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

} // namespace
} // namespace fanwright::opened
