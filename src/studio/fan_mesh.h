// The fans of one size in their seats, as the page draws them and tells of them.
#pragma once

#include "design/design.h"
#include "opened/opened.h"

#include <string>

namespace fanwright::studio {

/// Little endian: "FWF1", uint32 bytes of the head, the head (JSON, padded with blanks to 4 bytes), then for each fan
/// float32 positions (3 a point, mm, ornament axes), uint8 openness to the sky (1 a point, 255 open, padded to 4 bytes)
/// and uint32 corners (3 a triangle). The head: {"from_mm", "neck", "problems", "figure", "seats", "fans"}, see
/// docs/studio.md. `form` must have its mesh.
std::string fan_mesh(const design::Design& design, const design::Size& size, const opened::Form& form);

} // namespace fanwright::studio
