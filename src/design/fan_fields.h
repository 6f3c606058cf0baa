// The fans of a design file. Inside src/design only.
#pragma once

#include "design/design.h"
#include "design/fields.h"

#include <vector>

namespace fanwright::design {

/// Reads "fans". `paper` is the file's, which a fan's own changes or replaces.
std::vector<Fan> read_fans(const Field& field, const paper::Paper& paper, const Units& units);

} // namespace fanwright::design
