// A drawn edge as points about the fan's centre, turned clockwise from its first side. Inside src/fan.
#pragma once

#include "design/design.h"
#include "leaf/path_data.h"

#include <variant>
#include <vector>

namespace fanwright::fan {

struct Polar {
  double distance_mm = 0; ///< from the centre
  double turned_rad = 0;  ///< clockwise from the first side; goes on beyond a full turn
};

struct DrawnPolar {
  std::vector<std::vector<Polar>> runs; ///< between corners, from the first side to the last
  double first_side_deg = 0;            ///< azimuth, counter-clockwise from X
  double spread_deg = 0;
  double reach_mm = 0; ///< farthest point from the centre
};

/// Follows the path about (0, 0). Refuses, at "/outline", one that passes the centre too closely to have a side there,
/// ends where it began without going round, goes round more than once or runs beyond its own sides.
std::variant<DrawnPolar, design::Refusal> about_centre(const leaf::Subpath& path);

} // namespace fanwright::fan
