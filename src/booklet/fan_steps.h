// The steps of fans: pleating, and spreading and gluing them on.
#pragma once

#include "booklet/step_block.h"

#include <vector>

namespace fanwright::booklet {

/// Adds nothing for designs without fans.
void add_fan_steps(const Edition& edition, std::vector<StepWords>& steps);

} // namespace fanwright::booklet
