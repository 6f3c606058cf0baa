// The inextensible elastica by shooting: the exact shapes of thin strips that strip_checks.h compares the sheet with.
// Based on: Bisshopp and Drucker, Quarterly of Applied Mathematics 3 (1945) 272-275 (tip load).
#pragma once

namespace fanwright::opened {

/// A strip of length 1 and bending stiffness 1, clamped level at one end.
struct Elastica {
  double drop = 0, reach = 0; ///< of the tip: against the load, along the clamp
  double tip_slope_rad = 0;
  double root_curvature = 0;
  double energy = 0; ///< of bending
};

/// Under a dead load at the tip, alpha = P L^2 / (E I), and its own weight, lambda = w L^3 / (E I).
Elastica cantilever(double alpha, double lambda);

/// A strip between two clamps set `offset` of its length apart, whose ends are free to approach: two tip-loaded
/// cantilevers back to back. `drop` is the offset, `reach` the height that remains, `tip_slope_rad` that of the middle.
Elastica clamped_both_ends(double offset);

} // namespace fanwright::opened
