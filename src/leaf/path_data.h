// SVG path data -> exact curves. Grammar: SVG 2, section 9.3. The file's y is up already and becomes z.
#pragma once

#include "leaf/outline.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::leaf {

/// One subpath in the file's units. When `closed`, its last segment ends at `start`.
struct Subpath {
  Point start;
  std::vector<Segment> segments; ///< never empty
  bool closed = false;
};

/// Why path data is refused.
struct PathFault {
  std::size_t position = 0; ///< character, counted from 1
  std::string sentence;     ///< for the maker; names the character
};

/// Parses all of `text`. Moves that draw nothing are dropped. Unlike a viewer, which draws what came before a fault,
/// refuses any fault; refuses more than 20,000 commands and coordinates beyond +-1e5. Accepts "1." as SVG 1.1 did.
/// Arcs with a radius of 0 become lines, as SVG 2 section 9.5.1 asks.
std::variant<std::vector<Subpath>, PathFault> parse_path_data(std::string_view text);

} // namespace fanwright::leaf
