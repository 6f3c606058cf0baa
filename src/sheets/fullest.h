// As many copies of one piece as a sheet will hold.
#pragma once

#include "sheets/effort.h"
#include "sheets/room.h"

#include <vector>

namespace fanwright::sheets {

/// The piece and the stances it may take on a sheet; a stance's half turn is in the list whenever the stance is.
struct OneKind {
  Profile profile;
  Shape outline; ///< as it will be cut, for the exact check
  std::vector<Stance> stances;
};

/// Patterns first, then a search for one piece more, and one more, until the work is done or `most` pieces lie. Every
/// layout is checked exactly. `gap` is for rounded outlines, micrometres. Empty when the piece does not fit.
std::vector<Laid> fullest_sheet(const OneKind& kind, const Extent& room, std::int64_t gap, std::size_t most,
                                const Effort& effort);

/// True when the pieces keep the gap from each other.
bool all_apart(const Shape& outline, const std::vector<Laid>& pieces, std::int64_t gap);

} // namespace fanwright::sheets
