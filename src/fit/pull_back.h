// The wanted outline pulled back to the flat leaf through a computed deformation.
#pragma once

#include "fit/drawing.h"
#include "opened/opened.h"

#include <cmath>
#include <vector>

namespace fanwright::fit {

/// The outline as far as paper can follow it: paper ends at the spine, which stands off the axis. What is drawn nearer
/// to the axis is squeezed outwards, smoothly and the more the nearer it is, so that an outline that ends on the axis
/// ends on the spine.
struct Hub {
  std::vector<leaf::Point> spine; ///< from foot to top, (distance from the axis, height), heights ascending, mm
  /// How far the outline rises within the hub's reach at the spine's ends, mm: level ends are squeezed evenly, steep
  /// ones run along the spine.
  double foot_rise_mm = steep_mm, top_rise_mm = steep_mm;
  static constexpr double steep_mm = 1e3;

  double reach_at(double z) const;
  double radius_at(double z) const;
  leaf::Point reachable(leaf::Point wanted) const;
};

/// The hub of a spine that reaches from `foot` to `top`; `place` tells where each of these places comes to lie, mm.
template <typename Place> Hub hub_along(double foot, double top, const Place& place) {
  constexpr int steps = 32;
  Hub hub;
  for (int k = 0; k <= steps; ++k) {
    const leaf::Point p = place(std::lerp(foot, top, static_cast<double>(k) / steps));
    if (hub.spine.empty() || p.z > hub.spine.back().z)
      hub.spine.push_back(p);
  }
  return hub;
}

/// As the drawing's outline asks for it.
Hub hub_of(const opened::Form& form, const Drawing& drawing);

/// Takes the flat places of a drawing that was derived before as the ones to begin with; cut-outs begin as drawn.
void begin_from(const Drawing& before, Drawing& drawing);

/// How far points that are paper lie from their wanted places, mm.
struct Miss {
  double worst_mm = 0, mean_mm = 0; ///< of all points; of those of the outline
};

/// Moves the drawing's flat points to where the form takes them to their wanted places. Returns how far they were off
/// before.
Miss pull_back(const opened::Form& form, Drawing& drawing);

} // namespace fanwright::fit
