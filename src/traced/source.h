// What kind of file it is, and the areas that it shows.
#pragma once

#include "traced/plane.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::traced {

/// The picture, or the page of an SVG file, in the file's unit: pixels, CSS pixels.
struct SourcePage {
  double width = 0, height = 0;
  double top = 0; ///< z of its upper edge
};

/// Pieces are at least one.
struct Source {
  std::string kind;
  SourcePage page;
  Areas areas;              ///< in the file's unit, x to the right, z up
  double grain = 0;         ///< a pixel of a picture, in the file's unit; 0: exact
  std::optional<double> mm; ///< of the file's unit, where the file gives its size
  std::vector<std::string> notes;
};

std::variant<Source, std::string> read_source(std::string_view bytes);

} // namespace fanwright::traced
