// Glue rows that place themselves: level, on alternating sides, close where the leaf is slim and wider where it is
// broad, one at each tip of a tier. docs/design-file.md tells the maker how they are chosen.
#pragma once

#include "leaf/leaf.h"

#include <variant>
#include <vector>

namespace fanwright::leaf {

/// What decides beside the outline.
struct RowCircumstances {
  double wedge_rad = 0.07; ///< beta = opening / (2 leaves)
  int leaves = 46;         ///< named in refusals
  double caliper_mm = 0.2;
  double bead_mm = 0.6;   ///< diameter of the bead of glue
  double hub_mm = 0;      ///< from x = 0 of the outline to the spine: 0 on a leaf, the hub on an opened outline
  bool is_opened = false; ///< heights are those of the opened ornament, where gaps stand lower than in the leaf
  double lock_share = 1;  ///< of the lock ratio that a look asks for; less sets the rows further apart
};

RowCircumstances circumstances_of(const design::Design& design, const design::Size& size);

/// The rows from foot to top. No gap has a lock ratio above 0.7 unless nothing else fits, and none above 0.88. A row
/// lies at each tip that leaves room for it; the sharpest win. Refuses, naming "/rows", when no three rows fit, and
/// "/leaves" with the least count that works when they would lock. Lengths mm.
std::variant<std::vector<GlueRow>, design::Refusal> auto_rows(const design::AutoRows& wish, const Leaf& leaf,
                                                              const RowCircumstances& circumstances);

} // namespace fanwright::leaf
