// What no layout can do better than.
#pragma once

#include "sheets/figures.h"

namespace fanwright::sheets {

/// Area of the piece grown by half the gap, never more than the true one, mm2.
double grown_area_mm2(const Profile& piece, std::int64_t gap_um);

/// Area of the room grown by half the gap, its corners round, mm2: pieces grown by half the gap lie in it apart.
double grown_room_mm2(const Extent& room, std::int64_t gap_um);

/// No layout holds more than this many of the piece in the room with this gap (micrometres), by area.
std::size_t most_by_area(const Profile& piece, const Extent& room, std::int64_t gap_um);

/// No layout holds more than this many of the piece, however turned, by its largest disc: the middles of the discs lie
/// in the room less a radius all round and as far from each other as two radii and the gap (Oler, "An inequality in the
/// geometry of numbers", Acta Mathematica 105, 1961).
std::size_t most_by_discs(const Profile& piece, const Extent& room, std::int64_t gap_um);

/// No layout holds more than this many of the kind, by cells: where any two pieces with their corners in the same cell
/// of the places would come too near, each cell holds one piece at most. `most` where that proves nothing better. The
/// figures lie off the true outlines by `off_um` and keep `spare_um` more than the gap asked for.
std::size_t most_by_cells(const Figures& figures, std::size_t kind, const Extent& room, double off_um, double spare_um,
                          std::size_t most);

} // namespace fanwright::sheets
