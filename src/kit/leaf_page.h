// Drawings of the leaf: one leaf at true size, and the pages of sheets.
#pragma once

#include "drawing/drawing.h"
#include "kit/part.h"

#include <vector>

namespace fanwright::kit {

inline constexpr double ruler_mm = 100;

/// A page together with where its leaf box and ruler lie, page coordinates in mm.
struct MeasuredPage {
  drawing::Page page;
  drawing::Point leaf_corner; ///< top left of the box of the (first) leaf
  double leaf_width_mm = 0, leaf_height_mm = 0;
  drawing::Point ruler_left; ///< the ruler's zero
  double ruler_length_mm = ruler_mm;
};

/// The leaf's cut, score and glue marks on a page: placed on the sheet as `placement` says, the sheet's bottom edge at
/// y = `sheet_bottom_y`.
void add_leaf(drawing::Page& page, const leaf::Marks& marks, const sheets::Placement& placement, double sheet_bottom_y);

/// One whole leaf, unfolded, inner face up, with a ruler and a key to the lines.
MeasuredPage leaf_page(const design::Design& design, const Part& part);

/// One page for each layout of the plan, of the sheet's size.
std::vector<MeasuredPage> sheet_pages(const design::Design& design, const Part& part);

} // namespace fanwright::kit
