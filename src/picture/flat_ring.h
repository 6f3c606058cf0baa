// Rings of the flat leaf with points at an even pace.
#pragma once

#include "leaf/outline.h"

#include <cstddef>

namespace fanwright::picture {

/// The ring with bends of less than 1/160 of `spacing_mm` straightened and no straight longer than `spacing_mm`.
leaf::Ring evenly_spaced(const leaf::Ring& ring, double spacing_mm);

/// The ring's point k moved 0.002 mm into the paper, which lies left of the ring: across a narrow slit the nearest
/// paper may be the wrong one.
leaf::Point just_inside(const leaf::Ring& ring, std::size_t k);

} // namespace fanwright::picture
