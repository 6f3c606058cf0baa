// A copy of a design file with its sizes changed; everything else stays as the maker wrote it.
#pragma once

#include "design/design.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::cli {

/// The text with the size, one of its own, at this height (mm). A file without sizes gets one.
std::variant<std::string, design::Refusal> with_height(const std::string& text, const design::Size& size,
                                                       double height_mm);

/// The list that stands for these sizes as "sizes" in the file, in its unit, one size a line. What a size shares with
/// the top of the file may be left out.
std::string sizes_text(const std::string& text, const std::vector<design::Size>& sizes);

/// The text with this list of sizes in place of its own.
std::variant<std::string, design::Refusal> with_sizes(const std::string& text, const std::vector<design::Size>& sizes);

} // namespace fanwright::cli
