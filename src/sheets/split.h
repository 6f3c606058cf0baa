// A leaf too large for its sheets, in two halves that are joined at the spine.
#pragma once

#include "leaf/leaf.h"
#include "sheets/sheets.h"

#include <array>
#include <variant>

namespace fanwright::sheets {

/// The right half carries a lap beyond the spine that is scored on the spine's line, glued behind the left half and so
/// becomes part of it. Leaf coordinates, mm.
struct SplitLeaf {
  leaf::Contour right;                                ///< counter-clockwise from the spine's foot, lap included
  leaf::Contour left;                                 ///< counter-clockwise from the spine's foot, ends at the spine
  std::vector<leaf::Contour> right_holes, left_holes; ///< clockwise
  leaf::Point score_from, score_to;                   ///< on the right half: the spine
  std::array<leaf::Point, 4>
      glue; ///< counter-clockwise: on the lap, 1 mm within its sides; so where it meets the left half
};

/// Laps narrower than this do not hold (common practice, no source), mm.
inline constexpr double narrowest_lap_mm = 5;

/// Refuses a lap narrower than that, or wider than the left half is anywhere along the spine.
std::variant<SplitLeaf, Refusal> split_at_spine(const leaf::Leaf& leaf, double lap_mm);

} // namespace fanwright::sheets
