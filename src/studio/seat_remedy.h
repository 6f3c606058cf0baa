// Changes of the design file that let a fan sit where it could not.
#pragma once

#include "fan/seat.h"
#include "studio/told.h"

#include <string>
#include <vector>

namespace fanwright::studio {

/// The changes of each remedy as src/fan/seated_fans.h gives it: places in the file, values in its units. `text` is the
/// design's own. Remedies that cannot be written are left out.
std::vector<std::vector<told::Change>> seat_remedies(const std::string& text,
                                                     const std::vector<fan::SeatChange>& remedies);

} // namespace fanwright::studio
