// Where a knife sets in. It leaves a nick there, so a hole is begun where the eye does not go: next to the spine.
#pragma once

#include "leaf/outline.h"

namespace fanwright::kit {

/// The same closed curve run through the same way, begun at its point nearest the spine; a segment is split there when
/// that point is not an end already. Of equally near points the first counts.
leaf::Contour begun_nearest_spine(const leaf::Contour& contour);

} // namespace fanwright::kit
