#include "sheets/split.h"

#include "leaf/contour.h"
#include "leaf/region.h"

#include <algorithm>
#include <cmath>

namespace fanwright::sheets {

namespace {

constexpr double on_spine_mm = 1e-9;   // points of the spine have x = 0 but for rounding
constexpr double spared_ends_mm = 0.5; // the lap begins this far from the spine's ends, so that it does not show

leaf::Ring mirrored(leaf::Ring ring) {
  for (leaf::Point& p : ring)
    p.x = -p.x;
  std::reverse(ring.begin(), ring.end());
  return ring;
}

/// The half with its stretch along the spine replaced by the lap; the lap's ends are cut at 45 degrees.
leaf::Ring with_lap(const leaf::Ring& half, const leaf::Leaf& leaf, double lap_mm) {
  const double top = leaf.spine_top_z - spared_ends_mm, foot = leaf.spine_foot_z + spared_ends_mm;
  leaf::Ring result;
  for (std::size_t i = 0; i < half.size(); ++i) {
    const leaf::Point p = half[i], next = half[(i + 1) % half.size()];
    result.push_back(p);
    // Counter-clockwise the spine is run down; it may hold points of its own.
    const bool begins =
        std::abs(p.x) < on_spine_mm && std::abs(next.x) < on_spine_mm && std::abs(p.z - leaf.spine_top_z) < 1e-6;
    if (!begins)
      continue;
    result.insert(result.end(), {{0, top}, {-lap_mm, top - lap_mm}, {-lap_mm, foot + lap_mm}, {0, foot}});
  }
  return result;
}

} // namespace

std::variant<SplitLeaf, Refusal> split_at_spine(const leaf::Leaf& leaf, double lap_mm) {
  if (!(lap_mm >= narrowest_lap_mm))
    return Refusal{"A lap must be at least 5 mm wide to hold; ask for a wider one."};
  const double top = leaf.spine_top_z - spared_ends_mm, foot = leaf.spine_foot_z + spared_ends_mm;
  if (top - foot <= 2 * lap_mm)
    return Refusal{"The spine is too short for a lap of this width; ask for a narrower one."};
  const leaf::Ring half = leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm);
  const std::array<leaf::Point, 4> lap{{{0, foot}, {0, top}, {-lap_mm, top - lap_mm}, {-lap_mm, foot + lap_mm}}};
  const leaf::Region right(half);
  for (const double z : {foot + lap_mm, (foot + top) / 2, top - lap_mm})
    if (!right.contains({lap_mm, z}))
      return Refusal{"The lap is wider than the leaf beside its spine; ask for a narrower one."};
  SplitLeaf split;
  split.right = with_lap(half, leaf, lap_mm);
  split.left = mirrored(half);
  for (const leaf::Contour& hole : leaf.cut_outs) {
    split.right_holes.push_back(leaf::flatten(hole, leaf::flatten_tolerance_mm));
    split.left_holes.push_back(mirrored(split.right_holes.back()));
    if (leaf::bounds(hole).left < lap_mm)
      return Refusal{"A cut-out lies where the lap is glued; ask for a lap narrower than " +
                     std::to_string(static_cast<int>(leaf::bounds(hole).left)) + " mm."};
  }
  split.score_from = {0, leaf.spine_foot_z};
  split.score_to = {0, leaf.spine_top_z};
  split.glue = lap;
  return split;
}

} // namespace fanwright::sheets
