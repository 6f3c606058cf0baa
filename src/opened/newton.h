// Newton's method with a sparse Cholesky factor, predicted membrane forces and a watchdog on the energy.
// Based on: Nocedal and Wright, Numerical Optimization, chapters 3 and 15 (watchdog); Magisano, Leonetti and Garcea,
// Int. J. Numer. Methods Eng. 2017 (stresses of the integration points as unknowns of the linear step; from memory).
#pragma once

#include "opened/factor.h"
#include "opened/mechanics.h"

#include <functional>

namespace fanwright::opened {

struct NewtonResult {
  bool converged = false;
  bool cancelled = false;
  int steps = 0;
  int factorisations = 0;
  double energy = 0; ///< N mm

  /// What this descent came to, and what both took.
  NewtonResult after(const NewtonResult& before) const {
    return {converged, cancelled, before.steps + steps, before.factorisations + factorisations, energy};
  }
};

struct NewtonHooks {
  std::function<void(double)> progress; ///< 0..1
  std::function<bool()> cancelled;
};

/// What the unknowns are to begin with: a guess, whose membrane forces mean little, or a form beside the minimum.
enum class Start { guess, near };

/// When a descent has gone far enough: shares of the energy that the next step would lower it by, at first and after
/// tolerance::first_steps.
struct Enough {
  double at_first = 0, later = 0;
};

/// Steps down the energy until it is enough, and no further: the factor is then of the last place's Hessian.
NewtonResult descend(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, const NewtonHooks& hooks,
                     Start start, const Enough& enough);

/// Minimises the energy from `unknowns`, which end at the minimum when the result says so.
NewtonResult minimise(const Mechanics& mechanics, Vector& unknowns, const NewtonHooks& hooks,
                      Start start = Start::guess);

} // namespace fanwright::opened
