// A page together with where things lie on it, so that kit.json can say so and outside readers can be held to it.
#pragma once

#include "drawing/drawing.h"
#include "kit/place.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::kit {

/// A straight scale by the zero of its line; it runs to the right, or up the page.
struct Scale {
  drawing::Point zero;
  double length_mm = 0;
  bool upright = false;
};

struct MeasuredPage {
  drawing::Page page;
  std::string shows = "sheet"; ///< "sheet", "fans", "cut leaf", "check", "check back", "front", "back", "leaf", "half",
                               ///< "part", "half part"
  std::string name;            ///< of a part: column and row, "B2"
  int copies = 1;              ///< to print or cut of this page
  std::vector<Place> leaves;   ///< all whole leaves; of a part, where its leaf lies, mostly outside the page
  std::vector<Place> right_halves, left_halves; ///< of leaves that are cut in two
  std::optional<PageBox> part;                  ///< of a part: the window that is printed
  std::optional<Scale> millimetres, inches;
  std::optional<Scale> foot, left_side; ///< in the margin, from one corner: two sides of the square
  std::optional<drawing::Point> square; ///< top left corner of the 50 mm square
};

} // namespace fanwright::kit
