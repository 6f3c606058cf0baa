// Plates and sheets against handbook and published shell values.
#pragma once

#include "opened/check.h"

namespace fanwright::opened {

Checks slit_ring_checks();    ///< slit ring-shaped plate, one lip of the slit clamped, the other lifted
Checks square_plate_checks(); ///< small deflections under a uniform load
Checks grain_checks();        ///< stretch of a strip cut slantwise to the grain

/// Lift of the ring's free lip at its inner and outer end, mm, by the share of the full load.
struct RingPoint {
  double load = 0, inner = 0, outer = 0;
};
struct RingPath {
  int points = 0; ///< control points
  std::vector<RingPoint> lifts;
};
RingPath slit_ring_path(int cells_across, int steps);

} // namespace fanwright::opened
