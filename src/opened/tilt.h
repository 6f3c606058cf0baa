// How far an ornament gives way for little energy: what handling may leave along its soft modes.
#pragma once

#include "opened/factor.h"
#include "opened/spread.h"

namespace fanwright::opened {

/// Largest changes of height and diameter that tolerance::tilt_energy_share of the form's energy can hold, to first
/// order. With c the gradient of a measure and H the Hessian, the most that c . u reaches while 1/2 u . H u <= dU is
/// sqrt(2 dU c . H^-1 c): no mode need be singled out, the soft ones weigh in by themselves.
/// `factor` is that of the form's own Hessian.
Contribution tilt(const Form& form, const DampedFactor& factor);

} // namespace fanwright::opened
