#include "kit/size_sheet.h"

namespace fanwright::kit {

sheets::Sheet sheet_of(const design::Sheet& sheet) { return {sheet.name, sheet.size, sheet.margin_mm, sheet.gap_mm}; }

sheets::Sheet less_notes(sheets::Sheet sheet) {
  constexpr double notes_band_mm = 29;
  sheet.size.height_mm -= notes_band_mm;
  return sheet;
}

sheets::Turns turns_for(const design::Size& size) {
  if (size.sheet.size.width_mm == size.sheet.size.height_mm)
    return sheets::Turns::either;
  return size.paper.grain == paper::Grain::along_spine ? sheets::Turns::upright : sheets::Turns::sideways;
}

} // namespace fanwright::kit
