// Text set with the built-in font, as the pages of an intermediate PDF. For the PDF files of this folder only.
#pragma once

#include "drawing/drawing.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::drawing {

/// Lines of text that share a page of width_mm x height_mm.
struct LetteredPage {
  double width_mm = 0, height_mm = 0;
  std::vector<Text> lines;
};

/// A PDF with one page for each entry, text in its own colours and one embedded font subset. Uses the built-in font
/// alone, whatever the machine's font settings are. Fails when the font files are not installed.
std::variant<std::string, Failure> lettering(const std::vector<LetteredPage>& pages);

} // namespace fanwright::drawing
