#include "picture/colour.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace fanwright::picture {
namespace {

float to_linear(float s) { return s <= 0.04045F ? s / 12.92F : std::pow((s + 0.055F) / 1.055F, 2.4F); }
float to_srgb(float l) { return l <= 0.0031308F ? l * 12.92F : 1.055F * std::pow(l, 1 / 2.4F) - 0.055F; }

// Straight to the knee, then an exponential that leaves with slope 1 and ends at white.
float soft_shoulder(float l) {
  constexpr float knee = 0.7F;
  return l <= knee ? std::max(l, 0.0F) : knee + (1 - knee) * (1 - std::exp(-(l - knee) / (1 - knee)));
}

} // namespace

std::optional<Vec3> linear_colour(std::string_view hex) {
  if (hex.size() != 7 || hex[0] != '#')
    return std::nullopt;
  std::array<float, 3> channel{};
  for (std::size_t i = 0; i < 3; ++i) {
    unsigned value = 0;
    const char* from = hex.data() + 1 + 2 * i;
    const auto [end, fault] = std::from_chars(from, from + 2, value, 16);
    if (fault != std::errc{} || end != from + 2)
      return std::nullopt;
    channel[i] = to_linear(static_cast<float>(value) / 255);
  }
  return Vec3{channel[0], channel[1], channel[2]};
}

std::array<std::uint8_t, 3> display_colour(Vec3 linear) {
  const auto byte = [](float l) {
    return static_cast<std::uint8_t>(std::clamp(std::lround(255 * to_srgb(soft_shoulder(l))), 0L, 255L));
  };
  return {byte(linear.x), byte(linear.y), byte(linear.z)};
}

} // namespace fanwright::picture
