#include "opened/newton.h"

#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::opened {
namespace {

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
  Descent(const Mechanics& mechanics, Vector& unknowns, Start start)
      : mechanics_(mechanics), unknowns_(unknowns), forces_(mechanics.forces(unknowns)) {
    if (start == Start::guess) {
      forces_ = tensile_part(forces_);
    }
  }

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

NewtonResult descend(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, const NewtonHooks& hooks,
                     Start start, const Enough& enough) {
  NewtonResult result;
  const OneThread one_thread;
  Descent descent(mechanics, unknowns, start);
  Ground ground;
  for (; result.steps < tolerance::most_steps; ++result.steps) {
    if (hooks.cancelled && hooks.cancelled()) {
      result.cancelled = true;
      break;
    }
    if (hooks.progress) {
      hooks.progress(1.0 - std::pow(0.9, result.steps));
    }
    const bool sound = factor.prepare(mechanics, unknowns, descent.forces(), ground);
    result.energy = ground.energy;
    result.factorisations = factor.factorisations();
    if (!sound || !std::isfinite(result.energy)) {
      break;
    }
    const Vector step = factor.solve(-ground.gradient);
    double slope = ground.gradient.dot(step);
    const double share = result.steps < tolerance::first_steps ? enough.at_first : enough.later;
    result.converged = -slope <= share * std::abs(result.energy);
    if (result.converged || !std::isfinite(slope)) {
      break;
    }
    if (!descent.take(step, result.energy, slope, factor.damped())) {
      // Rounding ends the descent before the wanted share on very stiff sheets.
      result.converged = -slope <= tolerance::stalled_energy_share * std::abs(result.energy);
      break;
    }
  }
  return result;
}

NewtonResult minimise(const Mechanics& mechanics, Vector& unknowns, const NewtonHooks& hooks, Start start) {
  DampedFactor factor(mechanics.pattern(), start == Start::guess ? 0.0 : 1.0);
  return descend(mechanics, factor, unknowns, hooks, start, {tolerance::energy_share, tolerance::energy_share});
}

} // namespace fanwright::opened
