// Numbers as reports for programs give them.
#pragma once

#include <algorithm>
#include <cmath>

namespace fanwright::cli {

/// Decimals of lengths in mm.
inline constexpr int length_decimals = 4;

/// Rounded to `decimals`; tiny negative values become 0, not -0.
inline double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

/// Rounded to `digits` significant digits, for quantities whose order of magnitude varies.
inline double significant(double value, int digits) {
  if (value == 0.0 || !std::isfinite(value)) {
    return value;
  }
  const int decimals = digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value))));
  return rounded(value, std::clamp(decimals, 0, 12));
}

} // namespace fanwright::cli
