// A page as DXF, for cutting machines.
#pragma once

#include "drawing/drawing.h"

#include <string>
#include <string_view>

namespace fanwright::drawing {

/// The page as a complete ASCII DXF of release 2000 (AC1015): one unit is one millimetre ($INSUNITS 4), y up from the
/// page's lower edge. Layers carry the meaning: CUT, PERFORATE, SCORE, SCORE_BACK, GLUE_INSIDE, GLUE_BETWEEN and NOTES,
/// those that are used; printed matter is left out. Paths are LWPOLYLINEs (see bulged_line.h for their curves), text is
/// TEXT. A dash of a pen is the line type only: what a machine shall cut as dashes must be drawn as separate paths.
/// `title` is a comment at the head. Same page, same bytes.
std::string dxf(const Page& page, std::string_view title);

} // namespace fanwright::drawing
