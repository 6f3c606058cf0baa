// A form beside a known equilibrium: quasi-Newton steps with the known form's factor.
// Based on: Nocedal and Wright, Numerical Optimization, chapter 7 (limited-memory BFGS).
#pragma once

#include "opened/factor.h"
#include "opened/newton.h"

#include <functional>

namespace fanwright::opened {

/// When a sheet counts as at rest: the share of the energy that the next step would lower it by, or else the share that
/// the last whole step has lowered it by while the next one promises little more. The fall alone is no sign of rest:
/// now and then it is small by chance amid a descent, on another processor in another step.
struct Rest {
  double expected = 0, fallen = 0;
  /// The fall alone is enough, a shortened step counts too, and so does that no step of a tenth or more lowers the
  /// energy after one that did not lower it by much, or with a fresh factor either.
  bool hasty = false;
};

/// Minimises the energy of `mechanics` from `unknowns`, on `ground`, until it is at rest. `factor` is that of a
/// neighbouring energy or place; it is made anew here when steps with it no longer pay, and Newton's method takes over
/// when even that does not.
NewtonResult relax(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, Ground ground, const Rest& rest,
                   const std::function<bool()>& cancelled);

Ground ground_at(const Mechanics& mechanics, const Vector& unknowns);

} // namespace fanwright::opened
