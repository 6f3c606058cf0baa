// Heights for rows that place themselves: the cheapest way up the leaf, from row to row.
// Based on: Bellman, On the theory of dynamic programming, 1952 (shortest path over stages; from memory).
#pragma once

#include <optional>
#include <vector>

namespace fanwright::leaf {

/// A height at which a level row could lie.
struct RowPlace {
  double z = 0;        ///< of the centre line, mm
  double reach = 0;    ///< x of the row's outer end, mm
  double pitch = 1;    ///< wanted from row to row hereabouts, mm, above 0
  double share = 1;    ///< reach as a share of the longest row near by, 0..1
  bool fits = true;    ///< a row of useful length fits
  bool needed = false; ///< a tip: no gap may pass over it
};

/// What every gap must keep.
struct GapLimits {
  double width_mm = 3;     ///< of the rows
  double least_mm = 2;     ///< clear paper between two rows
  double wedge_rad = 0.07; ///< beta
  double most_lock = 0.7;  ///< largest beta x / s of a gap, x the outer end of its shorter row
};

/// Indices of the places to take, from foot to top: an even number of gaps, two at least, so that sides which alternate
/// begin and end alike. The first and last row lie within a pitch of the lowest and highest place; every needed place
/// is taken. Gaps come as near as they can to the wanted pitch. `places` ascend. Empty when there is no such way.
std::optional<std::vector<int>> row_heights(const std::vector<RowPlace>& places, const GapLimits& limits);

} // namespace fanwright::leaf
