// A sheet filled from an endless pattern of one piece.
#pragma once

#include "sheets/room.h"

#include <vector>

namespace fanwright::sheets {

/// As many copies of `piece`, as given or turned by 180 degrees, as a pattern brings on the room with the clearance
/// `gap_um` between the true outlines. Takes some ten milliseconds; not checked.
std::vector<Laid> filled_by_pattern(const Profile& piece, const Extent& room, double gap_um);

} // namespace fanwright::sheets
