// Where rings cross or touch one another, found over a grid.
#pragma once

#include "traced/plane.h"

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace fanwright::traced {

struct Crossings {
  double count = 0;                                       ///< edges that cross; some are counted twice
  std::vector<std::pair<std::size_t, std::size_t>> rings; ///< that cross or touch each other, ascending
};

/// Empty when the rings run through the same places so often, or cross so often, that they are no drawing of a leaf.
/// The work is bounded: edges are held against each other only where they pass through one cell.
std::optional<Crossings> crossings_of(const std::vector<Ring>& rings);

} // namespace fanwright::traced
