// Numbers in sentences.
#pragma once

#include <cstdio>
#include <string>

namespace fanwright::fit {

/// The value with so many decimals.
inline std::string number(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

/// "94.1 %" of a share of 1.
inline std::string percent(double share, int decimals) { return number(100 * share, decimals) + " %"; }

} // namespace fanwright::fit
