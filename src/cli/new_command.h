// fanwright new: a design file from a drawing, a scan, a photo or a starter.
#pragma once

#include <string>

namespace fanwright::cli {

struct NewRequest {
  std::string from;    ///< drawing or picture
  std::string starter; ///< or the name of one of our own designs; exactly one of the two
  std::string height, width;
  std::string between;      ///< "x1,y1,x2,y2=LENGTH"
  std::string units = "mm"; ///< of height, width, that length and the tolerance
  std::string drawn;        ///< whole or half; empty: found out
  std::string side;         ///< left, right or mean; empty: mean where the sides differ
  std::string shows;        ///< opened or flat; empty: opened
  std::string tolerance;
  int figure = 1;
  std::string title;
  std::string out;     ///< empty: named after the drawing, in the present folder
  std::string picture; ///< SVG that shows what was changed; empty: none
  bool replace = false;
  bool json = false;
};

/// Writes the design file and says what was found; exit codes as everywhere.
int run_new(const NewRequest& request);

} // namespace fanwright::cli
