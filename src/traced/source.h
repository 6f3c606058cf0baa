// What kind of file it is, and the areas that it shows.
#pragma once

#include "traced/plane.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::traced {

/// Pieces are at least one.
struct Source {
  std::string kind;
  Areas areas;              ///< in the file's unit, x to the right, z up
  double grain = 0;         ///< a pixel of a picture, in the file's unit; 0: exact
  std::optional<double> mm; ///< of the file's unit, where the file gives its size
  std::vector<std::string> notes;
};

std::variant<Source, std::string> read_source(std::string_view bytes);

} // namespace fanwright::traced
