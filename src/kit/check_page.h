// The page to print and measure first: are lengths true, do front and back meet, what do the lines mean.
#pragma once

#include "kit/measured_page.h"
#include "kit/page_notes.h"

namespace fanwright::kit {

struct CheckWords {
  std::string title;                   ///< of the ornament and its size
  std::string number;                  ///< "page 1 of 6"
  std::vector<std::string> paragraphs; ///< below the measures: what the other pages are and how to print them
  std::vector<KeyLine> key;
};

/// Returns the page and the depth at which it is still free, mm from the top.
struct CheckPage {
  MeasuredPage measured;
  double free_from_mm = 0;
};

/// `both_sides`: with crosses for the back to meet.
CheckPage check_page(const paper::SheetSize& size, const CheckWords& words, bool both_sides);

/// The back of the page above, mirrored for turning over on the long edge.
MeasuredPage check_back(const paper::SheetSize& size, const CheckWords& words);

} // namespace fanwright::kit
