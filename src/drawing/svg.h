// A page as SVG: width and height in mm with an equal viewBox, so that one unit is one millimetre in every reader.
#pragma once

#include "drawing/drawing.h"

#include <string>
#include <string_view>

namespace fanwright::drawing {

/// The page as SVG text. One group each, in this order and only when used: print, cut, perforate, score, score-back,
/// glue-inside, glue-between, notes (dimensions and legend). Only print has colours of its own; its pictures are left
/// out. Cubics and arcs stay exact; numbers have at most 4 decimals; same page, same bytes.
std::string svg(const Page& page, std::string_view title);

} // namespace fanwright::drawing
