// Basic shapes and paths of SVG as curves. Based on: SVG 2, chapters 9 and 10.
#pragma once

#include "leaf/path_data.h"
#include "traced/svg_values.h"

#include <pugixml.hpp>

#include <string>
#include <variant>
#include <vector>

namespace fanwright::traced {

/// What percentages are taken of, in user units.
struct Viewport {
  double width = 0, height = 0;
};

bool is_shape(std::string_view name);

/// The shape's subpaths in its own user units; none when it draws nothing. A sentence when its data is wrong.
std::variant<std::vector<leaf::Subpath>, std::string> shape_of(pugi::xml_node element, const Viewport& viewport);

/// The same through a transform, as lines and cubics; arcs to a hundred-thousandth of their radius.
leaf::Subpath transformed(const leaf::Subpath& subpath, const Matrix& matrix);

} // namespace fanwright::traced
