// A form beside a known equilibrium: quasi-Newton steps with the known form's factor.
// Based on: Nocedal and Wright, Numerical Optimization, chapter 7 (limited-memory BFGS).
#pragma once

#include "opened/factor.h"
#include "opened/newton.h"

#include <functional>

namespace fanwright::opened {

/// Minimises the energy of `mechanics` less `pull` . unknowns from `unknowns`, with `factor` (of a neighbouring energy
/// at nearly the same place) in the place of the Hessian's. An empty pull is none. A solve that such steps do not
/// finish goes on with Newton's method when nothing pulls, and fails when something does.
NewtonResult relax(const Mechanics& mechanics, const DampedFactor& factor, const Vector& pull, Vector& unknowns,
                   const std::function<bool()>& cancelled);

} // namespace fanwright::opened
