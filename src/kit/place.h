// Where a leaf lies on a page, and its curves drawn there.
#pragma once

#include "drawing/drawing.h"
#include "leaf/outline.h"
#include "sheets/sheets.h"

namespace fanwright::kit {

/// From leaf coordinates (x from the spine, z up) to a page (y down): turned anticlockwise as seen, then, for the back
/// of a page that is flipped like a book's, mirrored left to right, then moved.
struct Place {
  int turn_deg = 0; ///< 0, 90, 180 or 270
  bool mirrored = false;
  drawing::Point origin; ///< where the spine's (0, 0) lies on the page, mm

  drawing::Point operator()(const leaf::Point& point) const;
};

/// The place of a sheet's placement on the page that shows this sheet.
Place on_sheet(const sheets::Placement& placement, double sheet_height_mm);

/// The same place seen from the back of a page `page_width_mm` wide.
Place from_behind(const Place& place, double page_width_mm);

/// The closed curve on the page; cubics and arcs stay exact.
drawing::Path path_of(drawing::Step step, const leaf::Contour& contour, const Place& place);

/// Smallest upright box on a page, mm.
struct PageBox {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

/// Box of a ring (which has at least one point) once placed.
PageBox box_of(const leaf::Ring& ring, const Place& place);

} // namespace fanwright::kit
