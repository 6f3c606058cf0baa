// Drawings of the stencils: a card alone for cutting machines, and pages to print, glue to card and cut by hand.
#pragma once

#include "drawing/drawing.h"
#include "kit/part.h"
#include "kit/stencil.h"

#include <string>
#include <vector>

namespace fanwright::kit {

/// A page with one card, or both; lengths in mm.
struct StencilPage {
  drawing::Page page;
  std::vector<drawing::Point> cards; ///< the corner of fold and head of each
  drawing::Point ruler_left;         ///< zero of a ruler 100 mm long
};

/// What is printed on the waste of the paper and on the card itself.
struct StencilLook {
  std::string name;             ///< of the ornament and its size
  bool windows_hatched = false; ///< shows a hand with a knife what falls out
};

/// The stencil's windows, card and words with the corner of fold and head at `head_corner`. Windows stand before the
/// card, small before large.
void add_stencil(drawing::Page& page, const leaf::Leaf& leaf, const Stencil& stencil, const StencilLook& look,
                 const drawing::Point& head_corner);

/// The card at true size with title and ruler beside it.
StencilPage stencil_page(const design::Design& design, const Part& part, const Stencil& stencil);

/// All `stencils` (at least one) of a size on sheets of the printer's size, upright or lying, as few as can be, with
/// how to make and use them and the `remarks` (on what has no window). A card too large for the sheet comes in
/// overlapping parts.
std::vector<StencilPage> stencil_sheets(const design::Design& design, const Part& part,
                                        const std::vector<Stencil>& stencils, const std::vector<std::string>& remarks,
                                        const paper::SheetSize& sheet);

} // namespace fanwright::kit
