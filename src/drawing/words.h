// How much room words take, by the built-in font's own measures.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fanwright::drawing {

/// Width of one line, mm, set at `size_mm` (height of the em square). 0 when the font is not installed.
double words_width_mm(std::string_view words, double size_mm, bool bold = false);

/// `words` broken at spaces into lines no wider than `width_mm`; line feeds break too; a word that is wider alone
/// is broken between characters. Never empty.
std::vector<std::string> broken_into_lines(std::string_view words, double width_mm, double size_mm, bool bold = false);

} // namespace fanwright::drawing
