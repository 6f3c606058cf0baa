// A form beside a known equilibrium: quasi-Newton steps with the known form's factor.
// Based on: Nocedal and Wright, Numerical Optimization, chapter 7 (limited-memory BFGS).
#pragma once

#include "opened/factor.h"
#include "opened/newton.h"

#include <functional>

namespace fanwright::opened {

/// Minimises the energy of `mechanics` from `unknowns`. `factor` is that of a neighbouring energy or place; it is made
/// anew here when steps with it no longer pay, and Newton's method takes over when even that does not. Stops when the
/// expected further loss is below `energy_share` of the energy.
NewtonResult relax(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, double energy_share,
                   const std::function<bool()>& cancelled);

} // namespace fanwright::opened
