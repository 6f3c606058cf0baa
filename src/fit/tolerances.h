// Tolerances of the derived leaf, each with its reason.
#pragma once

namespace fanwright::fit::tolerance {

/// The opened outline lies within this share of the ornament's size of the wanted one, or the design is refused: half a
/// millimetre on a large piece, which nobody sees and no hand cuts to.
inline constexpr double outline_share = 0.002;

/// Iterations stop below this share; the solver itself is no better.
inline constexpr double settled_share = 0.0004;

/// Most solves of the opened form for one size.
inline constexpr int most_solves = 12;

/// Spacing of the points that follow the outline, mm.
inline constexpr double point_spacing_mm = 1.5;

/// Derived points become curves within this distance, mm: a quarter of what a blade follows.
inline constexpr double curve_mm = 0.03;

/// A drawn corner sharper than this stays a corner, degrees.
inline constexpr double corner_deg = 8.0;

/// No point of the leaf moves further in one iteration, mm.
inline constexpr double longest_move_mm = 8.0;

/// Drawn places nearer to the axis than this many hub radii are squeezed outwards to make room for the hub.
inline constexpr double hub_reach = 1.6;

/// Lock ratio beyond which the paper would have to stretch: docs/model.md.
inline constexpr double most_lock = 0.9;

} // namespace fanwright::fit::tolerance
