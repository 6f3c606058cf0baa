// Black and white pictures, and their outlines.
#pragma once

#include "traced/plane.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace fanwright::traced {

/// Rows from the top; 1 is ink.
struct Bitmap {
  int width = 0, height = 0;
  std::vector<std::uint8_t> ink;

  Bitmap(int w, int h) : width(w), height(h), ink(static_cast<std::size_t>(w) * static_cast<std::size_t>(h), 0) {}
  std::uint8_t& at(int column, int row) {
    return ink[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) + static_cast<std::size_t>(column)];
  }
  std::uint8_t at(int column, int row) const {
    return ink[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) + static_cast<std::size_t>(column)];
  }
};

/// Outlines and holes together that a picture of a leaf may have; a weave or a raster has more.
inline constexpr std::size_t most_rings = 1000;

/// Sides of pixels between ink and ground: how long the ink's edge is. Found in one pass.
std::size_t edge_pixels(const Bitmap& bitmap);

/// Outlines of the ink in pixels, x from the left edge, z **up** from the lower edge; to a third of a pixel. Ink of
/// fewer than `speck` pixels is left out, as are holes; nothing is left of more than `most_rings`. potrace does the
/// work.
Areas outlines_of(const Bitmap& bitmap, int speck);

/// Marks pixels whose middle lies in an area, by even-odd crossings; the area's unit is a pixel, z up from the lower
/// edge.
Bitmap drawn(const Areas& areas, int width, int height);

} // namespace fanwright::traced
