// The files of one size that are drawn, not lit: everything to cut, print and mark with.
#pragma once

#include "kit/file.h"
#include "kit/numbers.h"

#include <variant>
#include <vector>

namespace fanwright::kit {

/// Draws the pages of a planned part.
void draw(const design::Design& design, DrawnPart& drawn);

/// In the order README.txt lists them.
std::variant<std::vector<File>, Problem> size_files(const design::Design& design, const DrawnPart& drawn);

} // namespace fanwright::kit
