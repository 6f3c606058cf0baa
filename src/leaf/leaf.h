// The flat leaf of one size: silhouette and rows with their places checked.
#pragma once

#include "design/design.h"
#include "leaf/outline.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::leaf {

/// Chord tolerance wherever curves become polylines, mm.
inline constexpr double flatten_tolerance_mm = 0.02;

/// A glue row by its centre line; `width_mm` is measured along z.
struct GlueRow {
  design::Side side = design::Side::inside;
  Point from; ///< end nearer the spine
  Point to;   ///< outer end
  double width_mm = 3.0;
};

/// One leaf, described by its right half. The left half is its mirror image in x = 0.
struct Leaf {
  Contour outline;               ///< outer cut line of the half, counter-clockwise, its stretch on x = 0 included
  std::vector<Contour> cut_outs; ///< holes, clockwise, each clear of the spine and of the outline
  std::vector<GlueRow> rows;     ///< from foot to top by height at their middle
  double spine_foot_z = 0;       ///< the score runs on x = 0 from here
  double spine_top_z = 0;        ///< to here
};

/// Builds and validates the leaf of one size of a flat design (`shows` is not looked at).
/// Refuses self-crossing or open silhouettes, a silhouette left of the spine, rows outside the leaf or overlapping.
std::variant<Leaf, design::Refusal> build(const design::Design& design, const design::Size& size);

} // namespace fanwright::leaf
