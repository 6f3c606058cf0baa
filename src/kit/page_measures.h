// What a page is measured by: scales, the square, and the crosses that show how well front and back meet.
#pragma once

#include "kit/free_room.h"
#include "kit/measured_page.h"

namespace fanwright::kit {

inline constexpr double millimetres_mm = 100; ///< length of the metric scale
inline constexpr double inches_mm = 4 * 25.4; ///< length of the inch scale
inline constexpr double square_mm = 50;
/// Printers leave out about 4.2 mm all round, some 5 mm (0.166 in and 0.2 in: printers' driver notes); a quarter inch
/// is safe (common practice, no source).
inline constexpr double printed_margin_mm = 6.35;

/// Room a double scale takes, measured from the top left corner of its box.
inline constexpr double double_scale_width_mm = 108, double_scale_height_mm = 16.5;

/// 4 in above and 100 mm below, read as one ruler with two edges; `corner` is the top left of its box.
void add_double_scale(MeasuredPage& measured, const drawing::Point& corner);

/// A square of 50 mm with its sides named inside; `corner` is its own.
void add_square(MeasuredPage& measured, const drawing::Point& corner);

/// Puts scale and square where the page is free, and takes their room; the scale near `scale_wish`, the square near
/// `square_wish` (top left corners). What finds no room goes into the page's margin, which is `margin_mm` wide: for the
/// scale, 100 mm along the foot and 4 in up the right side; for the square, 50 mm or more along the foot and up the
/// left side from one corner, two sides of it.
void add_measures(MeasuredPage& measured, FreeRoom& room, double margin_mm, const drawing::Point& scale_wish,
                  const drawing::Point& square_wish);

/// Small crosses for front and back to meet in.
void add_crosses(drawing::Page& page, const std::vector<drawing::Point>& centres);

/// Crosses where both faces are free, as near to the four corners as can be; the back is the front mirrored left to
/// right.
void add_meeting_crosses(drawing::Page& front, drawing::Page& back, FreeRoom& front_room, FreeRoom& back_room);

} // namespace fanwright::kit
