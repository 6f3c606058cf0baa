// PNG and JPEG pictures, read within bounds. libpng and libjpeg do the work.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::traced {

/// Rows from the top; red, green, blue and opacity of each pixel, turned as the file's orientation tag asks.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgba;

  const std::uint8_t* at(int column, int row) const {
    return rgba.data() +
           4 * (static_cast<std::size_t>(row) * static_cast<std::size_t>(width) + static_cast<std::size_t>(column));
  }
};

/// Largest JPEG picture read, in pixels: what the largest common cameras take.
inline constexpr double most_pixels = 5e7;
/// Largest PNG picture, which cannot be read at a lower scale: an A4 page at 600 dots an inch has 34.8 million. Stored
/// interlaced it takes longer still.
inline constexpr double most_png_pixels = 3.6e7, most_interlaced_pixels = 2.5e7;

bool is_png(std::string_view bytes);
bool is_jpeg(std::string_view bytes);

/// A sentence when the file is damaged, cut short or too large.
std::variant<Picture, std::string> read_png(std::string_view bytes);
std::variant<Picture, std::string> read_jpeg(std::string_view bytes);

/// The orientation (1 to 8) in a block of camera data; 1 when it holds none. Exif 2.32, section 4.6.
int orientation_in(std::string_view exif);

/// The picture as the orientation asks it to be looked at.
Picture turned(const Picture& picture, int orientation);

} // namespace fanwright::traced
