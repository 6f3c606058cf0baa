#include "sheets/split.h"

#include "leaf/contour.h"
#include "leaf/region.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::sheets {

namespace {

constexpr double spared_ends_mm = 0.5; // the lap begins this far from the spine's ends, so that it does not show
constexpr double glue_border_mm = 1;   // squeezed-out glue stays under the lap (common practice, no source)

/// Corners of the lap, counter-clockwise from the spine's foot; its ends are cut at 45 degrees.
std::array<leaf::Point, 4> lap_of(const leaf::Leaf& leaf, double lap_mm) {
  const double top = leaf.spine_top_z - spared_ends_mm, foot = leaf.spine_foot_z + spared_ends_mm;
  return {{{0, foot}, {0, top}, {-lap_mm, top - lap_mm}, {-lap_mm, foot + lap_mm}}};
}

/// The lap less a border, so that glue keeps off the score and the cut edges: narrower by the border at the spine and
/// at its outer side, and shorter by as much across its ends.
std::array<leaf::Point, 4> glued_part(std::array<leaf::Point, 4> lap) {
  // Across an end at 45 degrees the border is the square root of 2 as high; along the spine the end moves with it.
  const double higher = glue_border_mm * std::numbers::sqrt2;
  lap[0].x -= glue_border_mm, lap[1].x -= glue_border_mm;
  lap[0].z += higher + glue_border_mm, lap[1].z -= higher + glue_border_mm;
  lap[2].x += glue_border_mm, lap[3].x += glue_border_mm;
  lap[2].z -= higher - glue_border_mm, lap[3].z += higher - glue_border_mm;
  return lap;
}

/// Whether the lap, glued behind the other half, lies hidden there: its sides are looked at from step to step.
bool hidden(const leaf::Leaf& leaf, const std::array<leaf::Point, 4>& lap) {
  constexpr double step_mm = 0.25;
  const leaf::Region half(leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm));
  for (std::size_t side = 1; side < lap.size(); ++side) {
    const leaf::Point from = lap[side], to = lap[(side + 1) % lap.size()];
    const int steps = 1 + static_cast<int>(std::hypot(to.x - from.x, to.z - from.z) / step_mm);
    for (int i = 0; i <= steps; ++i) {
      const double share = static_cast<double>(i) / steps;
      const leaf::Point p{from.x + share * (to.x - from.x), from.z + share * (to.z - from.z)};
      if (p.x < 0 && !half.contains({-p.x, p.z}))
        return false;
    }
  }
  return true;
}

/// The half with its stretch along the spine, which runs down and comes last, led round the lap.
leaf::Contour with_lap(leaf::Contour half, const std::array<leaf::Point, 4>& lap) {
  half.segments.pop_back();
  for (const std::size_t corner : {1, 2, 3, 0})
    half.segments.push_back(leaf::Line{lap[corner]});
  half.segments.push_back(leaf::Line{half.start});
  return half;
}

} // namespace

std::variant<SplitLeaf, Refusal> split_at_spine(const leaf::Leaf& leaf, double lap_mm) {
  if (!(lap_mm >= narrowest_lap_mm))
    return Refusal{"A lap must be at least 5 mm wide to hold; ask for a wider one."};
  SplitLeaf split;
  const std::array<leaf::Point, 4> lap = lap_of(leaf, lap_mm);
  split.glue = glued_part(lap);
  if (split.glue[2].z <= split.glue[3].z)
    return Refusal{"The spine is too short for a lap of this width; ask for a narrower one."};
  if (!hidden(leaf, lap))
    return Refusal{"The lap is wider than the leaf beside its spine; ask for a narrower one."};
  for (const leaf::Contour& hole : leaf.cut_outs) {
    if (leaf::bounds(hole).left < lap_mm)
      return Refusal{"A cut-out lies where the lap is glued; ask for a lap narrower than " +
                     std::to_string(static_cast<int>(leaf::bounds(hole).left)) + " mm."};
    split.right_holes.push_back(hole);
    split.left_holes.push_back(leaf::reversed(leaf::mirrored(hole)));
  }
  split.right = with_lap(leaf.outline, lap);
  split.left = leaf::reversed(leaf::mirrored(leaf.outline));
  split.score_from = {0, leaf.spine_foot_z};
  split.score_to = {0, leaf.spine_top_z};
  return split;
}

} // namespace fanwright::sheets
