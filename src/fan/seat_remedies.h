// Why a seat does not work, and what does. Inside src/fan.
#pragma once

#include "fan/seat_pose.h"

namespace fanwright::fan {

/// The refusal of a trial that failed, with every remedy tried.
Unseated unseated(const Fan& fan, const Body& body, const Seat& seat, bool stands, const Trial& trial);

} // namespace fanwright::fan
