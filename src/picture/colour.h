// Colours between the design file (sRGB #rrggbb), linear light and the 8-bit picture. Based on IEC 61966-2-1 (sRGB).
#pragma once

#include "picture/vec3.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace fanwright::picture {

/// Linear light 0..1 of "#rrggbb"; empty when the text is anything else.
std::optional<Vec3> linear_colour(std::string_view hex);

/// 8-bit sRGB of linear light; true up to 0.7, above it highlights bend softly towards white.
std::array<std::uint8_t, 3> display_colour(Vec3 linear);

} // namespace fanwright::picture
