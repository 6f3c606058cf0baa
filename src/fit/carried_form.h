// A form as it would lie in another wedge, at another height: what a change will come to, before it is solved.
#pragma once

#include "design/design.h"
#include "opened/opened.h"

namespace fanwright::fit {

/// How much larger a size is than the one before; 1 unless its height was changed.
double growth(const design::Size& size, const design::Size& before);

/// `last`, which opened `panel` of the size `before`, as it would lie in the size's wedge and at its height: each point
/// keeps its share of the angle, the hub grows by t / beta, and what a point has sunk, drawn in or stood off changes
/// with beta^2. The result has its wedge, place(), which goes on beyond the paper's edge by the way the
/// nearest paper has moved, and of its edge the two ends of the spine.
opened::Form carried(const opened::Form& last, const opened::Panel& panel, const design::Size& before,
                     const design::Size& size);

} // namespace fanwright::fit
