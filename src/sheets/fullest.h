// As many copies of one piece as a sheet will hold.
#pragma once

#include "sheets/effort.h"
#include "sheets/known.h"
#include "sheets/room.h"

#include <memory>
#include <vector>

namespace fanwright::sheets {

/// The piece and the stances it may take on a sheet; a stance's half turn is in the list whenever the stance is.
struct OneKind {
  Profile profile;
  Shape outline; ///< as it will be cut, for the exact check
  std::vector<Stance> stances;
};

/// Gaps between pieces, micrometres: what the maker asks for, and what is kept between rounded outlines.
struct Gaps {
  std::int64_t asked = 1, kept = 1;
};

struct Fullest {
  std::vector<Laid> pieces; ///< empty when the piece does not fit
  std::size_t most = 0;     ///< no layout holds more with the gap asked for
};

/// Patterns first, then a search for one piece more, and one more, until the work is done, `wanted` pieces lie or no
/// layout can hold more. Every layout is checked exactly.
Fullest fullest_sheet(const OneKind& kind, const Extent& room, Gaps gaps, std::size_t wanted, const Effort& effort,
                      const std::shared_ptr<Known>& known = std::make_shared<Known>());

/// True when the pieces keep the gap from each other.
bool all_apart(const Shape& outline, const std::vector<Laid>& pieces, std::int64_t gap);

} // namespace fanwright::sheets
