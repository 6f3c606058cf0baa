#include "opened/relax.h"

#include "opened/tolerances.h"

#include <cmath>
#include <deque>

namespace fanwright::opened {
namespace {

/// Steps remembered to correct the factor with, and the inverse Hessian that they make of it.
class Memory {
public:
  explicit Memory(const DampedFactor& factor) : factor_(factor) {}

  void remember(Vector step, Vector turn) {
    const double curved = step.dot(turn);
    if (!(curved > 0)) {
      return;
    }
    pairs_.push_back({std::move(step), std::move(turn), 1 / curved});
    if (pairs_.size() > 12) {
      pairs_.pop_front();
    }
  }

  /// Minus the inverse Hessian times the gradient (two-loop recursion).
  Vector step(const Vector& gradient) const {
    Vector q = -gradient;
    std::vector<double> shares(pairs_.size());
    for (std::size_t k = pairs_.size(); k-- > 0;) {
      shares[k] = pairs_[k].inverse * pairs_[k].step.dot(q);
      q -= shares[k] * pairs_[k].turn;
    }
    q = factor_.solve(q);
    for (std::size_t k = 0; k < pairs_.size(); ++k) {
      q += (shares[k] - pairs_[k].inverse * pairs_[k].turn.dot(q)) * pairs_[k].step;
    }
    return q;
  }

private:
  struct Pair {
    Vector step, turn;
    double inverse;
  };
  const DampedFactor& factor_;
  std::deque<Pair> pairs_;
};

/// Energy and gradient with the pull's work taken off.
double pulled(const Mechanics& mechanics, const Vector& pull, const Vector& unknowns, Vector& gradient) {
  double energy = mechanics.energy_and_gradient(unknowns, gradient);
  if (pull.size() > 0) {
    energy -= pull.dot(unknowns);
    gradient -= pull;
  }
  return energy;
}

} // namespace

NewtonResult relax(const Mechanics& mechanics, const DampedFactor& factor, const Vector& pull, Vector& unknowns,
                   const std::function<bool()>& cancelled) {
  NewtonResult result;
  const OneThread one_thread;
  Memory memory(factor);
  Vector gradient;
  const double scale = mechanics.energy(unknowns);
  result.energy = pulled(mechanics, pull, unknowns, gradient);
  for (; result.steps < tolerance::most_relax_steps; ++result.steps) {
    if (cancelled && cancelled()) {
      result.cancelled = true;
      return result;
    }
    const Vector step = memory.step(gradient);
    const double slope = gradient.dot(step);
    result.converged = slope <= 0 && -slope <= tolerance::relax_energy_share * scale;
    if (result.converged || !(slope < 0)) {
      break;
    }
    Vector turned;
    double length = 1;
    double energy = pulled(mechanics, pull, unknowns + step, turned);
    while (!(energy <= result.energy + 1e-4 * length * slope) && length > 1e-3) {
      length *= 0.4;
      energy = pulled(mechanics, pull, unknowns + length * step, turned);
    }
    if (!(energy < result.energy)) {
      break;
    }
    unknowns += length * step;
    result.energy = energy;
    memory.remember(length * step, turned - gradient);
    gradient = std::move(turned);
  }
  if (!result.converged && pull.size() == 0) {
    const int steps = result.steps;
    result = minimise(mechanics, unknowns, {{}, cancelled}, Start::near);
    result.steps += steps;
  }
  return result;
}

} // namespace fanwright::opened
