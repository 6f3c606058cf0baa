// The wanted outline pulled back to the flat leaf through a computed deformation.
#pragma once

#include "fit/drawing.h"
#include "opened/opened.h"

namespace fanwright::fit {

/// The outline as far as paper can follow it: paper ends at the spine, which stands off the axis by the hub. What is
/// drawn nearer to the axis is squeezed outwards, so that an outline that ends on the axis ends on the spine; where
/// that begins, the flat outline has a kink. mm.
struct Hub {
  double foot_height = 0, foot_radius = 0, top_height = 1, top_radius = 0;

  double radius_at(double z) const;
  bool squeezes(leaf::Point wanted) const;
  leaf::Point reachable(leaf::Point wanted) const;
};

Hub hub_of(const opened::Form& form);

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
