// Newton's method with a sparse Cholesky factor and an energy line search.
// Based on: Nocedal and Wright, Numerical Optimization, chapters 3 and 7.
#pragma once

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

/// Minimises the energy from `unknowns`, which end at the minimum when the result says so.
NewtonResult minimise(const Mechanics& mechanics, Vector& unknowns, const NewtonHooks& hooks);

} // namespace fanwright::opened
