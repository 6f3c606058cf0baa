// What is asked of a drawing, as words from a command line or a page's address.
#pragma once

#include "traced/traced.h"

#include <string>
#include <variant>

namespace fanwright::traced {

/// All may be empty. Numbers with a point; lengths in mm after multiplication by `unit_mm`.
struct WishWords {
  std::string height, width;
  std::string between; ///< "x1,y1,x2,y2=LENGTH"
  std::string drawn;   ///< "whole" or "half"
  std::string side;    ///< "left", "right" or "mean"
  std::string tolerance;
  double unit_mm = 1;
};

/// The wishes, or the sentence that says which word is wrong.
std::variant<Wishes, std::string> wishes_from(const WishWords& words);

} // namespace fanwright::traced
