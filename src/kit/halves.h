// A leaf that its sheet does not take whole, cut as two halves that are joined at the spine with a lap.
#pragma once

#include "design/design.h"
#include "leaf/marks.h"
#include "making/making.h"
#include "sheets/job.h"

#include <array>
#include <variant>

namespace fanwright::kit {

/// What one half carries.
struct HalfPiece {
  leaf::Marks marks;
  leaf::Ring outline; ///< chords within 0.001 mm; the right half's with its lap
};

struct Halves {
  HalfPiece right, left;
  double lap_mm = 0;
  std::array<leaf::Point, 4> glue; ///< leaf coordinates: on the lap's inner face, and where the left half's outer face
                                   ///< meets it
  sheets::JobPlan plan;            ///< kind 0 are right halves, kind 1 left ones
};

/// Splits the leaf and lays out as many halves of each kind as the size has leaves, on the size's sheet. Notes get a
/// band along the top where that costs no sheet, or where the margin is too narrow for them. Refuses a lap that does
/// not hold, and halves that do not fit the sheet either.
std::variant<Halves, sheets::Refusal> halves_of(const leaf::Leaf& leaf, const leaf::Marks& marks,
                                                const design::Size& size, double lap_mm, bool margin_serves);

/// What joining the halves of one leaf takes.
making::Laps laps_of(const Halves& halves);

} // namespace fanwright::kit
