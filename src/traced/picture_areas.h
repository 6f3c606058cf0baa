// The areas that stand out in a picture; a drawing in lines becomes the areas that the lines enclose.
#pragma once

#include "traced/picture_file.h"
#include "traced/plane.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::traced {

struct StandingOut {
  Areas areas;      ///< in pixels of the picture, z up from its lower edge
  double grain = 1; ///< how large the pixels are that the outline was found on
  std::vector<std::string> notes;
};

std::variant<StandingOut, std::string> standing_out(const Picture& picture);

} // namespace fanwright::traced
