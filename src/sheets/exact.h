// Exact answers on pieces in whole micrometres: no rounding anywhere, so a layout that passes is a layout that holds.
// Coordinates up to 2^28 micrometres (268 m) keep every product within 128 bits.
#pragma once

#include "sheets/shape.h"

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace fanwright::sheets {

/// True when the paper of the two pieces, as they lie, is at least `gap_um` apart everywhere; with a gap of 0 they may
/// touch, but share no area. A piece that lies in a hole of the other is judged by its distance to the hole's edge.
bool apart(const Shape& a, const Shape& b, std::int64_t gap_um);

/// The first two of the pieces that are not apart, by their places in the list.
std::optional<std::pair<std::size_t, std::size_t>> first_conflict(const std::vector<Shape>& pieces,
                                                                  std::int64_t gap_um);

/// True when edges of the loop other than neighbours touch.
bool crosses_itself(const Loop& loop);

} // namespace fanwright::sheets
