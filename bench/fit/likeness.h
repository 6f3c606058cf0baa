// How near an opened ornament comes to its wanted outline.
#pragma once

#include "leaf/silhouette.h"
#include "opened/opened.h"

namespace fanwright::bench {

struct Likeness {
  double overlap = 0;       ///< intersection over union of the two silhouettes, 0..1
  double deviation_mm = 0;  ///< largest distance between the outlines, either way, outside the hub's reach
  double foot_lift_mm = 0;  ///< highest point of a foot that should stand flat, outside the hub's reach; 0: none such
  double height_off_mm = 0; ///< opened less wanted
  double diameter_off_mm = 0;
  double size_mm = 0; ///< the larger of height and diameter
};

/// The hub's reach: what lies nearer to the axis than this many radii of the spine's ends, where no paper can come.
inline constexpr double hub_reach = 1.5;

Likeness likeness(const opened::Form& form, const leaf::Silhouette& wanted);

} // namespace fanwright::bench
