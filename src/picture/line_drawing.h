// Line drawings of the opened ornament with hidden lines left out, for booklets and listings.
#pragma once

#include "drawing/drawing.h"
#include "picture/solid.h"

#include <string>
#include <variant>

namespace fanwright::picture {

/// Where the drawing is seen from, infinitely far away, and how large it is drawn.
struct View {
  double azimuth_deg = 24;   ///< about the axis from the middle of the opening; the nearest middle of a leaf is taken
  double elevation_deg = 20; ///< above the horizon, -90..90
  double scale = 1;          ///< mm on the page for a mm of the ornament, 0.01..100
  double margin_mm = 5;      ///< free all round, 0..1000
};

/// A page with two paths: thin lines along the leaves' edges and along the turns of their paper, and thicker ones where
/// paper borders on the background. Lines are true to 0.05 mm of the ornament. The page is as large as the drawing.
/// A sentence when the view is out of range or memory does not suffice.
std::variant<drawing::Page, std::string> line_drawing(const Body& body, const View& view = {});

} // namespace fanwright::picture
