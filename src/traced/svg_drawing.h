// An SVG document as a flat list of painted shapes. Nothing it refers to outside itself is read.
// Based on: SVG 2, chapters 5 (structure), 7 (coordinates), 13 (painting); CSS Masking 1, section 5 (clipping).
#pragma once

#include "leaf/path_data.h"
#include "traced/svg_style.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::traced {

struct Clip;

/// One shape in the page's coordinates: CSS pixels from the page's upper left corner, z **down**.
struct PaintedShape {
  std::vector<leaf::Subpath> subpaths; ///< lines, quadratics and cubics
  FillRule rule = FillRule::nonzero;
  std::optional<Paint> fill, stroke;
  std::vector<std::shared_ptr<const Clip>> clips; ///< shown only inside all of these
};

/// What lies inside any of the shapes.
struct Clip {
  std::vector<PaintedShape> shapes;
  std::vector<std::shared_ptr<const Clip>> within; ///< and inside all of these
};

struct SvgDrawing {
  std::vector<PaintedShape> shapes;  ///< in the order painted
  double width = 0, height = 0;      ///< of the page, CSS pixels
  bool physical = false;             ///< the page's size is given in mm, inches or the like
  std::vector<std::string> left_out; ///< sentences about what was not read
};

/// A sentence when the document is broken or too large: more than 50,000 elements drawn, 64 groups in one another or
/// 100,000 path commands.
std::variant<SvgDrawing, std::string> read_svg(std::string_view bytes);

} // namespace fanwright::traced
