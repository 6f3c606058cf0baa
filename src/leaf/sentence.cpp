#include "leaf/sentence.h"

#include <array>
#include <charconv>
#include <cmath>

namespace fanwright::leaf {
namespace {

std::string decimal(double value, int digits) {
  std::array<char, 400> text{};
  const auto result = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, digits);
  const std::string shown(text.data(), result.ptr);
  return shown.find_first_not_of("-0.") == std::string::npos ? shown.substr(shown[0] == '-' ? 1 : 0) : shown;
}

} // namespace

std::string in_mm(double length_mm) { return decimal(length_mm, std::abs(length_mm) < 1 ? 2 : 1) + " mm"; }

std::string place(Point point) { return "x " + decimal(point.x, 1) + ", z " + decimal(point.z, 1) + " mm"; }

} // namespace fanwright::leaf
