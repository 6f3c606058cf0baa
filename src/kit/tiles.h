// A drawing larger than the page, printed in overlapping parts that are joined by their marks.
#pragma once

#include "kit/measured_page.h"

#include <string>
#include <vector>

namespace fanwright::kit {

inline constexpr double overlap_mm = 10;

/// Windows onto a drawing, in the drawing's own coordinates. Columns have letters, rows numbers: B2.
struct Tiling {
  int columns = 1, rows = 1;
  double width_mm = 0, height_mm = 0; ///< of one window
  double left_mm = 0, top_mm = 0;     ///< corner of the first

  PageBox window(int column, int row) const;
  std::string name(int column, int row) const;
};

/// As few windows of the given size as cover the box, in the middle of which it lies.
Tiling tiling_of(const PageBox& box, double width_mm, double height_mm);

/// Joints halfway through each overlap: a thin line, and on it numbered diamonds that both parts carry.
std::vector<drawing::Item> joints(const Tiling& tiling);

/// A small map of all parts with their names and the outline among `items` in them, at most `width_mm` wide.
void add_map(drawing::Page& page, const drawing::Point& corner, double width_mm, const Tiling& tiling,
             const std::vector<drawing::Item>& items);

} // namespace fanwright::kit
