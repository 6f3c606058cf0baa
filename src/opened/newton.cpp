#include "opened/newton.h"

#include "opened/tolerances.h"

#include <Eigen/CholmodSupport>
#include <omp.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::opened {
namespace {

using Factor = Eigen::CholmodSupernodalLLT<Matrix, Eigen::Lower>;

/// Keeps the sparse factorisation on the calling thread while it lives. Its fronts are far too small for a team of
/// threads: with one the solve takes two to three times as long, and all cores spin meanwhile.
class OneThread {
public:
  OneThread() : before_(omp_get_max_active_levels()) { omp_set_max_active_levels(0); }
  ~OneThread() { omp_set_max_active_levels(before_); }
  OneThread(const OneThread&) = delete;
  OneThread& operator=(const OneThread&) = delete;

private:
  int before_;
};

/// Goes on along `step` from `length`, doubling while that lowers the energy further.
void go_on(const Mechanics& mechanics, const Vector& unknowns, const Vector& step, double& length, double& energy) {
  for (double longer = 2 * length; longer < 1000; longer *= 2) {
    const double further = mechanics.energy(unknowns + longer * step);
    if (!(further < energy)) {
      return;
    }
    energy = further;
    length = longer;
  }
}

/// Takes the longest of a few shrinking steps along `step` that lowers the energy enough; false when none does.
/// A whole step that still goes straight down is made longer.
bool search(const Mechanics& mechanics, Vector& unknowns, const Vector& step, double slope, double energy) {
  double length = 1.0;
  for (int k = 0; k < 14; ++k) {
    double reached = mechanics.energy(unknowns + length * step);
    if (std::isfinite(reached) && reached <= energy + 1e-4 * length * slope) {
      // A quadratic energy drops by half of the slope; a drop near the whole slope means that it hardly curves.
      if (k == 0 && energy - reached > -0.6 * slope) {
        go_on(mechanics, unknowns, step, length, reached);
      }
      unknowns += length * step;
      return true;
    }
    // Minimum of the parabola through the two energies and the slope, kept within sensible bounds.
    const double curved = reached - energy - length * slope;
    const double best = std::isfinite(reached) && curved > 0 ? -0.5 * slope * length * length / curved : 0.0;
    length = std::clamp(best, 0.1 * length, 0.6 * length);
  }
  return false;
}

/// The Hessian's factor, with as much of the compressive membrane force as keeps it positive definite.
class DampedFactor {
public:
  explicit DampedFactor(const Mechanics& mechanics) : mechanics_(mechanics), hessian_(mechanics.pattern()) {
    factor_.cholmod().print = 0;
    factor_.analyzePattern(hessian_);
  }

  /// Energy and gradient at `unknowns`; false when even the tensile Hessian cannot be factored.
  bool prepare(const Vector& unknowns, const Forces& forces, double& energy, Vector& gradient) {
    const Forces tensile = tensile_part(forces);
    damped_ = share_ < 1.0;
    energy = mechanics_.derivatives(unknowns, tensile + share_ * (forces - tensile), gradient, hessian_);
    if (factorise()) {
      share_ = std::min(1.0, 1.5 * share_ + 0.25);
      return true;
    }
    damped_ = true;
    share_ *= 0.5;
    mechanics_.derivatives(unknowns, tensile, gradient, hessian_);
    return factorise();
  }

  Vector solve(const Vector& load) const { return factor_.solve(load); }
  /// Did the last factor leave some compressive force out?
  bool damped() const { return damped_; }
  int factorisations() const { return factorisations_; }

private:
  bool factorise() {
    ++factorisations_;
    factor_.factorize(hessian_);
    return factor_.info() == Eigen::Success;
  }

  const Mechanics& mechanics_;
  Matrix hessian_;
  Factor factor_;
  bool damped_ = false;
  double share_ = 0.0; ///< of the compressive force that enters
  int factorisations_ = 0;
};

/// The last place from which the energy has been seen to fall, and the step that left it.
struct Foothold {
  Vector unknowns, step;
  double energy = std::numeric_limits<double>::infinity();
  double slope = 0;
  int steps_since = 0;
};

/// One descent: takes each step, or goes back to the foothold when free steps have not paid.
class Descent {
public:
  Descent(const Mechanics& mechanics, Vector& unknowns)
      : mechanics_(mechanics), unknowns_(unknowns), forces_(tensile_part(mechanics.forces(unknowns))) {}

  /// The forces that enter the next Hessian are those the last linear step predicts, not those of the strains
  /// reached: a stiff membrane answers a finite step with spurious forces that the next step would have to undo.
  const Forces& forces() const { return forces_; }

  /// False when no step lowers the energy any more; `slope` is then the foothold's.
  bool take(const Vector& step, double energy, double& slope, bool damped) {
    forces_ = mechanics_.forces_after(unknowns_, step);
    const bool lower = energy <= foothold_.energy + 1e-4 * foothold_.slope;
    if (damped && lower && search(mechanics_, unknowns_, step, slope, energy)) {
      foothold_ = {};
      return true;
    }
    if (lower) {
      foothold_ = {unknowns_, step, energy, slope, 0};
    }
    if (foothold_.steps_since < tolerance::free_steps) {
      ++foothold_.steps_since;
      unknowns_ += std::min(1.0, tolerance::longest_step_mm / step.cwiseAbs().maxCoeff()) * step;
      return true;
    }
    unknowns_ = foothold_.unknowns;
    forces_ = mechanics_.forces_after(unknowns_, foothold_.step);
    slope = foothold_.slope;
    const bool found = search(mechanics_, unknowns_, foothold_.step, slope, foothold_.energy);
    foothold_ = {};
    return found;
  }

private:
  const Mechanics& mechanics_;
  Vector& unknowns_;
  Forces forces_;
  Foothold foothold_;
};

} // namespace

NewtonResult minimise(const Mechanics& mechanics, Vector& unknowns, const NewtonHooks& hooks) {
  NewtonResult result;
  const OneThread one_thread;
  DampedFactor factor(mechanics);
  Descent descent(mechanics, unknowns);
  Vector gradient;
  for (; result.steps < tolerance::most_steps; ++result.steps) {
    if (hooks.cancelled && hooks.cancelled()) {
      result.cancelled = true;
      break;
    }
    if (hooks.progress) {
      hooks.progress(1.0 - std::pow(0.9, result.steps));
    }
    const bool sound = factor.prepare(unknowns, descent.forces(), result.energy, gradient);
    result.factorisations = factor.factorisations();
    if (!sound || !std::isfinite(result.energy)) {
      break;
    }
    const Vector step = factor.solve(-gradient);
    double slope = gradient.dot(step);
    result.converged = -slope <= tolerance::energy_share * result.energy;
    if (result.converged || !std::isfinite(slope)) {
      break;
    }
    if (!descent.take(step, result.energy, slope, factor.damped())) {
      // Rounding ends the descent before the wanted share on very stiff sheets.
      result.converged = -slope <= tolerance::stalled_energy_share * result.energy;
      break;
    }
  }
  return result;
}

} // namespace fanwright::opened
