#include "opened/newton.h"

#include "opened/tolerances.h"

#include <Eigen/CholmodSupport>

#include <algorithm>
#include <cmath>

namespace fanwright::opened {
namespace {

using Factor = Eigen::CholmodSupernodalLLT<Matrix, Eigen::Lower>;

/// Takes the longest of a few shrinking steps along `step` that lowers the energy enough; false when none does.
bool search(const Mechanics& mechanics, Vector& unknowns, const Vector& step, double slope, double& energy) {
  double length = 1.0;
  for (int k = 0; k < 14; ++k) {
    const Vector tried = unknowns + length * step;
    const double reached = mechanics.energy(tried);
    if (std::isfinite(reached) && reached <= energy + 1e-4 * length * slope) {
      unknowns = tried;
      energy = reached;
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
    energy = mechanics_.derivatives(unknowns, tensile + share_ * (forces - tensile), gradient, hessian_);
    if (factorise()) {
      share_ = std::min(1.0, 1.5 * share_ + 0.25);
      return true;
    }
    share_ *= 0.5;
    mechanics_.derivatives(unknowns, tensile, gradient, hessian_);
    return factorise();
  }

  Vector solve(const Vector& load) const { return factor_.solve(load); }
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
  double share_ = 0.0; ///< of the compressive force that enters
  int factorisations_ = 0;
};

} // namespace

NewtonResult minimise(const Mechanics& mechanics, Vector& unknowns, const NewtonHooks& hooks) {
  NewtonResult result;
  DampedFactor factor(mechanics);
  Vector gradient;
  // The forces that enter the Hessian are those the last linear step predicts, not those of the strains reached: a
  // stiff membrane answers a finite step with spurious forces that the next step would have to undo.
  Forces forces = tensile_part(mechanics.forces(unknowns));
  for (; result.steps < tolerance::most_steps; ++result.steps) {
    if (hooks.cancelled && hooks.cancelled()) {
      result.cancelled = true;
      break;
    }
    if (hooks.progress) {
      hooks.progress(1.0 - std::pow(0.85, result.steps));
    }
    const bool sound = factor.prepare(unknowns, forces, result.energy, gradient);
    result.factorisations = factor.factorisations();
    if (!sound || !std::isfinite(result.energy)) {
      break;
    }
    const Vector step = factor.solve(-gradient);
    const double slope = gradient.dot(step);
    result.converged = -slope <= tolerance::energy_share * result.energy;
    if (result.converged || !std::isfinite(slope)) {
      break;
    }
    forces = mechanics.forces_after(unknowns, step);
    if (!search(mechanics, unknowns, step, slope, result.energy)) {
      // Rounding ends the descent before the wanted share on very stiff sheets.
      result.converged = -slope <= tolerance::stalled_energy_share * result.energy;
      break;
    }
  }
  return result;
}

} // namespace fanwright::opened
