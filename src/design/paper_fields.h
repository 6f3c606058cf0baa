// The paper and the sheet of a design file. Inside src/design only.
#pragma once

#include "design/design.h"
#include "design/fields.h"

namespace fanwright::design {

/// Reads "paper". With a grammage it stands on its own, grain excepted, and what it leaves out is typical of that
/// grammage; without one it changes `inherited`. `with_colour` allows the key colour, which the caller reads.
paper::Paper read_paper(const Field& field, const paper::Paper& inherited, const Units& units, bool with_colour);

/// Reads "sheet"; what it leaves out comes from `inherited`.
Sheet read_sheet(const Field& field, const Sheet& inherited, const Units& units);

} // namespace fanwright::design
