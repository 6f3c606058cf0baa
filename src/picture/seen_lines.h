// Which parts of a line on the ornament the viewer sees.
// Based on A. Appel, The notion of quantitative invisibility (1967), with rays instead of crossings of edges.
#pragma once

#include "picture/scene.h"

#include <array>
#include <vector>

namespace fanwright::picture {

/// A far viewer's axes: unit vectors to the right, up, and towards the viewer.
struct Axes {
  Vec3 right, up, towards;
};

Axes axes_of(double azimuth_deg, double elevation_deg);

/// A point of a line with two starts for the rays to the viewer, a little off the paper; it is seen from either.
struct LinePoint {
  Vec3 place;
  std::array<Vec3, 2> starts;
};

using Line = std::vector<LinePoint>;

enum class Seen {
  hidden,
  inside,   ///< more paper behind it on both sides
  outermost ///< borders on the background
};

/// A stretch of a line seen in one way.
struct Stretch {
  Seen seen = Seen::hidden;
  std::vector<Vec3> places;
};

/// The line cut into its stretches; those that are hidden are left out.
std::vector<Stretch> seen_stretches(const Scene& scene, const Axes& axes, const Line& line);

} // namespace fanwright::picture
