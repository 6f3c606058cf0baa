// Why a wanted outline is refused, in words, and the measures that decide it. Inside src/fit.
#pragma once

#include "fit/drawing.h"
#include "fit/pull_back.h"
#include "opened/opened.h"

#include <optional>
#include <string>

namespace fanwright::fit {

/// "12.3", with so many decimals.
std::string decimals(double value, int places);

/// Intersection over union of the opened and the wanted silhouette, 0..1.
double overlap(const opened::Form& form, const Drawing& drawing);

/// The same of what is reachable with such a hub.
double overlap(const Hub& hub, const Drawing& drawing);

/// Rows that lock; names leaves enough for the folds to stay near the axis too.
Failure locked(double lock_ratio, const design::Size& size);

/// The same before anything is solved: the ratio is that of the leaf alone.
std::optional<Failure> locked(const leaf::Leaf& leaf, const design::Size& size);

/// Angle between the two walls of a half-panel, radians.
double wedge_of(const design::Size& size);

/// The folded edges of all leaves stand round the axis on a ring of this radius at least, mm.
double hub_radius(const design::Size& size);

/// Leaves that take so much room round the axis that the silhouette cannot be matched, however they bend.
std::optional<Failure> crowded(const Drawing& drawing, const design::Size& size);

/// The ends of the spine stand too far off the axis: the silhouettes match to `share` only.
Failure hollow(const Hub& hub, const design::Size& size, double share);

/// The best leaf still opens this far off the outline.
Failure off(double miss_mm);

} // namespace fanwright::fit
