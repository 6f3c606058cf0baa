#include "drawing/decimal.h"

#include <array>
#include <charconv>
#include <cmath>

namespace fanwright::drawing {

std::string decimal(double value, int places) {
  // 1e12 mm is beyond any sheet; the bound keeps the buffer sufficient for every finite and non-finite input.
  if (!std::isfinite(value) || std::abs(value) > 1e12)
    return "0";
  std::array<char, 40> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, places);
  std::string text(buffer.data(), end.ptr);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.')
      text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string truncated_decimal(double value, int places) {
  const double scale = std::pow(10.0, places);
  return decimal(std::trunc(value * scale) / scale, places);
}

} // namespace fanwright::drawing
