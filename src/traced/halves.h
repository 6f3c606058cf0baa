// The half of a figure that becomes the leaf. Leaf coordinates, mm.
#pragma once

#include "traced/plane.h"

#include <string>
#include <vector>

namespace fanwright::traced {

enum class Side { left, right, mean };

/// What lies right of the spine: the right side, the left one mirrored, or what lies half-way between the two.
Areas side_of(const Areas& upright, Side side);

/// Cut-outs of one side that the mean of both sides covers for the most part.
Areas lost_cut_outs(const Areas& side, const Areas& mean);

/// One piece that touches the spine along one unbroken stretch, and what was done to have it.
struct Half {
  Area area;
  Areas dropped;                  ///< pieces that do not reach the spine
  Areas added;                    ///< paper put along the spine where a gap or cut-out ran across it
  std::vector<std::string> notes; ///< sentences
};

/// `edge_mm`: how uneven the side along the spine may be; paper of this width is put along it. 0: only where it gapes.
/// An area without a point means that nothing reaches the spine.
Half at_spine(const Areas& side, double edge_mm);

} // namespace fanwright::traced
