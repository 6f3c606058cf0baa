// Numbers as SVG and PDF take them: plain decimals, the same on every machine and in every language.
#pragma once

#include <string>

namespace fanwright::drawing {

/// `value` rounded to at most `places` decimals (0..9), without trailing zeros, exponent or "-0".
std::string decimal(double value, int places = 4);

/// As decimal(), but cut off towards zero: a page must never come out larger than the sheet.
std::string truncated_decimal(double value, int places = 4);

} // namespace fanwright::drawing
