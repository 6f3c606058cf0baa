// The half-panel as the page draws it: bytes of points, flat places, triangles and shade, shared by all panels.
#pragma once

#include "fit/follow.h"

#include <string>
#include <variant>

namespace fanwright::studio {

struct NoMesh {
  std::string sentence;
};

/// Little endian: "FWM1", uint32 points, uint32 triangles, uint32 half panels, float32 wedge in radians, float32
/// positions (3 a point, mm, wedge frame), float32 flat places (2 a point, mm), uint8 occlusion (1 a point, 255 open,
/// padded to 4 bytes), uint32 corners (3 a triangle). `form` is the followed form or another opening of it; points and
/// triangles come in the same order for all openings. About 4,000 triangles, 16,000 when `fine`.
std::variant<std::string, NoMesh> panel_mesh(const fit::Followed& followed, const opened::Form& form, bool fine);

} // namespace fanwright::studio
