// Takes the picture of a stage.
#pragma once

#include "picture/gathered.h"
#include "picture/shadow.h"
#include "picture/stage.h"

namespace fanwright::picture {

/// Empty when cancelled; progress runs from 0 to 1.
std::optional<Pixels> exposed(const Stage& stage, const Style& style);

} // namespace fanwright::picture
