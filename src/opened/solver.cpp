#include "opened/solver.h"

#include "opened/equilibrium.h"
#include "opened/factor.h"
#include "opened/relax.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <utility>

namespace fanwright::opened {
namespace {

bool same(const leaf::Ring& a, const leaf::Ring& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const leaf::Point& p, const leaf::Point& q) { return p.x == q.x && p.z == q.z; });
}

bool same(const leaf::GlueRow& a, const leaf::GlueRow& b) {
  return a.side == b.side && a.width_mm == b.width_mm && same({a.from, a.to}, {b.from, b.to});
}

bool same_leaf(const Panel& a, const Panel& b) {
  return same(a.outline, b.outline) &&
         std::equal(a.cut_outs.begin(), a.cut_outs.end(), b.cut_outs.begin(), b.cut_outs.end(),
                    [](const leaf::Ring& p, const leaf::Ring& q) { return same(p, q); }) &&
         std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), b.rows.end(),
                    [](const leaf::GlueRow& p, const leaf::GlueRow& q) { return same(p, q); });
}

bool same(const Sheet& a, const Sheet& b) {
  return a.thickness_mm == b.thickness_mm && a.modulus_x_mpa == b.modulus_x_mpa && a.modulus_z_mpa == b.modulus_z_mpa &&
         a.poisson == b.poisson && a.shear_mpa == b.shear_mpa;
}

/// The last form carried into another wedge: every point keeps its share of the angle, the hub grows or shrinks by its
/// t / beta, and what each point has sunk against the flat leaf changes with beta^2, as a gap's loss does.
Eigen::Matrix3Xd carried(const Equilibrium& last, double thickness_mm, double wedge_rad) {
  Eigen::Matrix3Xd places = last.mechanics.places(last.unknowns);
  const double before = last.mechanics.wedge_rad();
  const double ratio = wedge_rad / before;
  const double further = thickness_mm / wedge_rad - thickness_mm / before;
  for (int k = 0; k < last.pieces.points; ++k) {
    const auto& function = last.pieces.place[static_cast<std::size_t>(k)];
    const double flat =
        last.grid.flat_of(last.grid.across().greville(function[0]), last.grid.up().greville(function[1])).z;
    const double radius = std::hypot(places(0, k), places(1, k)) + further;
    const double angle = ratio * std::atan2(places(1, k), places(0, k));
    places.col(k) << radius * std::cos(angle), radius * std::sin(angle), flat + ratio * ratio * (places(2, k) - flat);
  }
  return places;
}

} // namespace

struct Solver::Last {
  Panel panel;
  std::shared_ptr<const Equilibrium> equilibrium;
  std::unique_ptr<DampedFactor> factor; ///< made when the first panel goes on from another
};

Solver::Solver() = default;
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

std::variant<Form, Failure> Solver::open(const Panel& panel, const Options& options) {
  const bool near = last_ && same_leaf(panel, last_->panel) && panel.opening_deg > 0 && panel.leaves > 0 &&
                    last_->equilibrium->fineness == fineness_of(panel, options);
  if (near) {
    if (auto form = go_on(*last_, panel, options)) {
      return *std::move(form);
    }
    if (options.cancelled && options.cancelled()) {
      return Failure{"Cancelled."};
    }
  }
  auto result = opened::open(panel, options);
  if (const auto* form = std::get_if<Form>(&result)) {
    last_ = std::make_unique<Last>(Last{panel, form->equilibrium, nullptr});
  }
  return result;
}

/// The form in the panel's wedge and paper from the last one; nothing when it is not found from there.
std::optional<Form> Solver::go_on(Last& last, const Panel& panel, const Options& options) {
  const auto start = std::chrono::steady_clock::now();
  const Equilibrium& before = *last.equilibrium;
  Mechanics mechanics = same(panel.sheet, last.panel.sheet) ? before.mechanics.in_wedge_of(wedge_of(panel))
                                                            : Mechanics(panel, before.grid, before.pieces);
  Eigen::Matrix3Xd places = carried(before, panel.sheet.thickness_mm, mechanics.wedge_rad());
  mechanics.settle(places);
  mechanics.pin_height(places);
  Vector unknowns = mechanics.unknowns_of(places);
  if (!last.factor) {
    last.factor = std::make_unique<DampedFactor>(mechanics.pattern(), 1.0);
  }
  const OneThread one_thread;
  double energy = 0;
  Vector gradient;
  if (!last.factor->prepare(mechanics, unknowns, mechanics.forces(unknowns), energy, gradient)) {
    return std::nullopt;
  }
  const NewtonResult result =
      relax(mechanics, *last.factor, unknowns, tolerance::relax_energy_share, options.cancelled);
  if (!result.converged) {
    return std::nullopt;
  }
  last.panel = panel;
  last.equilibrium = std::make_shared<const Equilibrium>(
      Equilibrium{before.fineness, before.grid, before.pieces, std::move(mechanics), std::move(unknowns)});
  Form form = form_of(panel, options, last.equilibrium);
  form.iterations = result.steps;
  form.factorisations = result.factorisations + 1;
  form.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return form;
}

} // namespace fanwright::opened
