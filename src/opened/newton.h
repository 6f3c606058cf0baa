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
};

struct NewtonHooks {
  std::function<void(double)> progress; ///< 0..1
  std::function<bool()> cancelled;
};

/// What the unknowns are to begin with: a guess, whose membrane forces mean little, or a form beside the minimum.
enum class Start { guess, near };

/// Steps down the energy until a step would lower it by less than `energy_share` of it, and no further than that: the
/// factor is then of the last place's Hessian.
NewtonResult descend(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, const NewtonHooks& hooks,
                     Start start, double energy_share);

/// Minimises the energy from `unknowns`, which end at the minimum when the result says so.
NewtonResult minimise(const Mechanics& mechanics, Vector& unknowns, const NewtonHooks& hooks,
                      Start start = Start::guess);

} // namespace fanwright::opened
