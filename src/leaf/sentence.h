// Wording of lengths and places in refusals.
#pragma once

#include "leaf/outline.h"

#include <string>

namespace fanwright::leaf {

/// "12.3 mm"; one decimal, two below 1 mm.
std::string in_mm(double length_mm);

/// "x 12.3, z 45.6 mm".
std::string place(Point point);

} // namespace fanwright::leaf
