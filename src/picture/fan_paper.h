// Seated fans as paper: for pictures, meshes and line drawings.
#pragma once

#include "fan/seat.h"
#include "picture/contour_lines.h"
#include "picture/half_panel.h"
#include "picture/surface.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

/// One spread fan in its seat. Creases are sharp: no point belongs to two panels.
struct FanPaper {
  std::string name; ///< "wing, right"
  double caliper_mm = 0;
  double depth_mm = 0;           ///< of a panel
  int panel_count = 0;           ///< of the strip
  std::vector<HalfPanel> panels; ///< ornament axes; `flat` in strip coordinates; a panel cut in several pieces has more
  Vec3 facing;                   ///< unit, the way its front face looks

  std::size_t triangle_count() const;
};

/// Spacing of points that keeps the surface to 0.05 mm.
inline constexpr double fan_spacing_mm = 2.0;

/// Largest fan, counted with its two faces; points are set wider until it is smaller.
inline constexpr std::size_t most_fan_triangles = 400'000;

/// The fan's panels as triangles. A sentence when its cut edge comes too close to itself.
std::variant<FanPaper, std::string> fan_paper(const fan::Placed& placed, const std::string& name, double caliper_mm,
                                              double spacing_mm = fan_spacing_mm);

/// Adds the fan's panels, and bands of its caliper along its cut edges when `edges`. `half_panel` is the number that
/// the flat places of its first panel get, which are told to be as far from the edge as they are from the outer one.
void add(Surface& surface, const FanPaper& fan, unsigned half_panel, bool edges);

/// The cut edges, and each crease once.
std::vector<Line> lines_of(const FanPaper& fan);

} // namespace fanwright::picture
