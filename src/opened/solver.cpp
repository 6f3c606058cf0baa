#include "opened/solver.h"

#include "opened/carried.h"
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

using Clock = std::chrono::steady_clock;

} // namespace

enum class Factor { as_it_is, fresh };

struct Solver::Last {
  Panel panel;
  std::shared_ptr<const Equilibrium> equilibrium;
  std::unique_ptr<DampedFactor> factor; ///< made for this form or one before, in the same pattern; none at first
  int steps = 0;                        ///< that the factor took to this form
  double energy = 0;                    ///< of this form, N mm

  /// The form in the panel's wedge and paper from this one; nothing when it is not found from here.
  std::optional<Form> go_on(const Panel& next, const Options& options);
  /// The form of a neighbouring leaf: on a grid of its own, from this form carried over to it.
  std::optional<Form> go_over(const Panel& next, const Options& options);

private:
  /// A sheet that stops with more energy than this beside the form has not come to rest, N mm.
  double most_energy(double wedge_rad) const {
    const double wider = std::max(1.0, wedge_rad / equilibrium->mechanics.wedge_rad());
    return tolerance::most_energy_rise * energy * std::pow(wider, 4);
  }
  /// Makes the factor anew; nothing when that cannot be done.
  std::optional<Ground> refreshed(const Mechanics& mechanics, const Vector& unknowns);
  /// Brings a sheet that lies near its equilibrium to rest, with the factor as it is or a fresh one, and makes it the
  /// last one.
  std::optional<Form> settled(const Panel& next, const Options& options, Laid sheet, Eigen::Matrix3Xd places,
                              Factor use, Clock::time_point start);
};

Solver::Solver() = default;
Solver::Solver(const Panel& panel, const Form& form)
    : last_(std::make_unique<Last>(Last{panel, form.equilibrium, nullptr, 0, form.energy_nmm()})) {}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

bool Solver::leads_to(const Panel& panel) const { return last_ && is_neighbour(panel, last_->panel); }

std::optional<Form> Solver::open_beside(const Panel& panel, const Options& options) {
  if (!last_ || panel.opening_deg <= 0 || panel.leaves <= 0) {
    return std::nullopt;
  }
  if (same_leaf(panel, last_->panel) && last_->equilibrium->fineness == fineness_of(panel, options)) {
    return last_->go_on(panel, options);
  }
  return leads_to(panel) ? last_->go_over(panel, options) : std::nullopt;
}

std::variant<Form, Failure> Solver::open(const Panel& panel, const Options& options) {
  if (auto form = open_beside(panel, options)) {
    return *std::move(form);
  }
  if (last_ && options.cancelled && options.cancelled()) {
    return Failure{"Cancelled."};
  }
  auto result = open_from_start(panel, options);
  if (auto* failure = std::get_if<Failure>(&result)) {
    return std::move(*failure);
  }
  auto& [form, factor] = std::get<Opened>(result);
  last_ = std::make_unique<Last>(Last{panel, form.equilibrium, std::move(factor), 0, form.energy_nmm()});
  return std::move(form);
}

std::optional<Form> Solver::Last::go_on(const Panel& next, const Options& options) {
  const auto start = std::chrono::steady_clock::now();
  const Equilibrium& before = *equilibrium;
  const bool same_paper = same(next.sheet, panel.sheet);
  Mechanics mechanics =
      same_paper ? before.mechanics.in_wedge_of(wedge_of(next)) : Mechanics(next, before.grid, before.pieces);
  const bool pays =
      factor && same_paper && options.detail != Detail::full && steps <= tolerance::most_steps_of_kept_factor;
  if (!factor) {
    factor = std::make_unique<DampedFactor>(mechanics.pattern(), 1.0);
  }
  Eigen::Matrix3Xd places = before.mechanics.places(before.unknowns);
  carry_into_wedge(before, next.sheet.thickness_mm, mechanics.wedge_rad(), {before.grid, before.pieces}, places);
  return settled(next, options, {before.fineness, before.grid, before.pieces, std::move(mechanics), {}},
                 std::move(places), pays ? Factor::as_it_is : Factor::fresh, start);
}

std::optional<Form> Solver::Last::go_over(const Panel& next, const Options& options) {
  const auto start = std::chrono::steady_clock::now();
  auto sheet = lay(next, options, equilibrium.get());
  if (!std::holds_alternative<Laid>(sheet)) {
    return std::nullopt;
  }
  Laid& laid = std::get<Laid>(sheet);
  Eigen::Matrix3Xd places = carried_to_leaf(*equilibrium, {laid.grid, laid.pieces}, laid.alike);
  carry_into_wedge(*equilibrium, next.sheet.thickness_mm, laid.mechanics.wedge_rad(), {laid.grid, laid.pieces}, places);
  if (factor && same_pattern(laid.mechanics.pattern(), equilibrium->mechanics.pattern())) {
    return settled(next, options, std::move(laid), std::move(places), Factor::fresh, start);
  }
  auto other = std::make_unique<DampedFactor>(laid.mechanics.pattern(), 1.0);
  std::swap(factor, other);
  auto form = settled(next, options, std::move(laid), std::move(places), Factor::fresh, start);
  if (!form) {
    std::swap(factor, other);
  }
  return form;
}

std::optional<Ground> Solver::Last::refreshed(const Mechanics& mechanics, const Vector& unknowns) {
  // What was carried over is strained in places where nothing presses; with that pressure in it the Hessian is seldom
  // positive definite, and no step is saved.
  Ground ground;
  const bool sound = factor->prepare(mechanics, unknowns, tensile_part(mechanics.forces(unknowns)), ground);
  return sound ? std::optional(std::move(ground)) : std::nullopt;
}

std::optional<Form> Solver::Last::settled(const Panel& next, const Options& options, Laid sheet,
                                          Eigen::Matrix3Xd places, Factor use, Clock::time_point start) {
  sheet.mechanics.settle(places);
  sheet.mechanics.pin_height(places);
  Vector unknowns = sheet.mechanics.unknowns_of(places);
  const OneThread one_thread;
  auto ground = use == Factor::fresh ? refreshed(sheet.mechanics, unknowns) : ground_at(sheet.mechanics, unknowns);
  if (!ground) {
    return std::nullopt;
  }
  NewtonResult result =
      relax(sheet.mechanics, *factor, unknowns, *std::move(ground), rest_of(options, Start::near), options.cancelled);
  if (result.converged && result.energy > most_energy(sheet.mechanics.wedge_rad())) {
    result = relax(sheet.mechanics, *factor, unknowns, ground_at(sheet.mechanics, unknowns),
                   rest_of(options, Start::guess), options.cancelled)
                 .after(result);
  }
  if (!result.converged) {
    return std::nullopt;
  }
  steps = result.steps;
  energy = result.energy;
  panel = next;
  equilibrium = std::make_shared<const Equilibrium>(Equilibrium{
      sheet.fineness, std::move(sheet.grid), std::move(sheet.pieces), std::move(sheet.mechanics), std::move(unknowns)});
  Form form = form_of(next, options, equilibrium);
  form.iterations = result.steps;
  form.factorisations = result.factorisations + (use == Factor::fresh ? 1 : 0);
  form.seconds = std::chrono::duration<double>(Clock::now() - start).count();
  return form;
}

} // namespace fanwright::opened
