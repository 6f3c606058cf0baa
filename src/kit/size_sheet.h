// The sheet of a size as the layouts take it.
#pragma once

#include "design/design.h"
#include "sheets/sheets.h"

namespace fanwright::kit {

sheets::Sheet sheet_of(const design::Sheet& sheet);

/// The sheet less the band along its top for two lines of notes and a ruler with figures, 29 mm.
sheets::Sheet less_notes(sheets::Sheet sheet);

/// Sheets are long grain as a rule: their grain runs along the longer side (common practice, no source). So the grain
/// the leaf asks for says how it lies; a square sheet can be turned by hand.
sheets::Turns turns_for(const design::Size& size);

} // namespace fanwright::kit
