#include "opened/relax.h"

#include "opened/tolerances.h"

#include <cmath>
#include <deque>
#include <limits>
#include <utility>
#include <vector>

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
    if (pairs_.size() > tolerance::relax_memory) {
      pairs_.pop_front();
    }
  }

  void forget() { pairs_.clear(); }

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

/// One descent with a factor that is made anew when it has grown stale.
class Relaxation {
public:
  Relaxation(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, Ground ground)
      : mechanics_(mechanics), factor_(factor), unknowns_(unknowns), memory_(factor), ground_(std::move(ground)) {}

  double energy() const { return ground_.energy; }
  Vector step() const { return memory_.step(ground_.gradient); }
  double slope(const Vector& step) const { return ground_.gradient.dot(step); }
  /// Has the last step lowered the energy by so little that the sheet may be at rest?
  bool may_rest(const Rest& rest) const { return fallen_ < rest.fallen * ground_.energy && (whole_ || rest.hasty); }
  bool nearly_rested() const { return fallen_ < tolerance::hasty_fallen_share * ground_.energy; }
  bool stale() const { return age_ >= tolerance::most_stale_steps; }
  bool fresh() const { return age_ == 0; }
  bool has_moved() const { return std::isfinite(fallen_); }

  bool refresh() {
    memory_.forget();
    age_ = 0;
    return factor_.prepare(mechanics_, unknowns_, mechanics_.forces(unknowns_), ground_);
  }

  /// Takes the first of a few shrinking steps that lowers the energy enough; false when none does.
  bool take(const Vector& step, double slope, double shortest) {
    Vector turned;
    for (double length = 1; length > shortest; length *= 0.4) {
      const double energy = mechanics_.energy_and_gradient(unknowns_ + length * step, turned);
      if (energy <= ground_.energy + 1e-4 * length * slope) {
        unknowns_ += length * step;
        fallen_ = ground_.energy - energy;
        whole_ = length == 1;
        memory_.remember(length * step, turned - ground_.gradient);
        ground_ = {energy, std::move(turned)};
        ++age_;
        return true;
      }
    }
    return false;
  }

private:
  const Mechanics& mechanics_;
  DampedFactor& factor_;
  Vector& unknowns_;
  Memory memory_;
  Ground ground_;
  double fallen_ = std::numeric_limits<double>::infinity(); ///< by what the last step lowered the energy, N mm
  bool whole_ = false;                                      ///< was it taken without being shortened?
  int age_ = 1; ///< steps since the factor was made; the one that is passed in is of another energy
};

} // namespace

Ground ground_at(const Mechanics& mechanics, const Vector& unknowns) {
  Ground ground;
  ground.energy = mechanics.energy_and_gradient(unknowns, ground.gradient);
  return ground;
}

NewtonResult relax(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, Ground ground, const Rest& rest,
                   const std::function<bool()>& cancelled) {
  NewtonResult result;
  const OneThread one_thread;
  const int factorisations = factor.factorisations();
  Relaxation relaxation(mechanics, factor, unknowns, std::move(ground));
  for (; result.steps < tolerance::most_relax_steps; ++result.steps) {
    if (cancelled && cancelled()) {
      result.cancelled = true;
      break;
    }
    if (relaxation.stale() && !relaxation.refresh()) {
      break;
    }
    const bool may_rest = relaxation.may_rest(rest);
    result.converged = may_rest && rest.hasty;
    if (result.converged) {
      break;
    }
    const Vector step = relaxation.step();
    const double slope = relaxation.slope(step);
    const double share = may_rest ? tolerance::most_promised * rest.fallen : rest.expected;
    result.converged = slope <= 0 && -slope <= share * relaxation.energy();
    if (result.converged) {
      break;
    }
    if (slope < 0 && relaxation.take(step, slope, rest.hasty && relaxation.has_moved() ? 0.1 : 1e-3)) {
      continue;
    }
    result.converged = rest.hasty && relaxation.nearly_rested();
    if (result.converged) {
      break;
    }
    if (relaxation.fresh() || !relaxation.refresh()) {
      result.converged = rest.hasty && relaxation.has_moved();
      break;
    }
  }
  result.energy = relaxation.energy();
  result.factorisations = factor.factorisations() - factorisations;
  if (result.converged || result.cancelled) {
    return result;
  }
  return minimise(mechanics, unknowns, {{}, cancelled}, Start::near).after(result);
}

} // namespace fanwright::opened
