// What an SVG drawing paints, as areas.
#pragma once

#include "traced/plane.h"
#include "traced/svg_drawing.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::traced {

struct Painted {
  Areas areas;                    ///< in the file's unit, z **up** (0 at the page's upper edge)
  std::vector<std::string> notes; ///< sentences about what was taken how
};

/// Filled shapes add up; shapes in the colour of the ground (white, or that of a shape as large as the page) take away.
/// Shapes that are drawn as lines alone count as outlines: the middle of the line is the edge, an outline inside
/// another is a cut-out, and open lines are joined where their ends meet. A sentence when the drawing cannot be used.
std::variant<Painted, std::string> painted(const SvgDrawing& drawing);

} // namespace fanwright::traced
