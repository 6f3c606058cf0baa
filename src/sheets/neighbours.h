// Pieces on their way to a layout, and which of them are near each other.
#pragma once

#include "sheets/figures.h"

#include <vector>

namespace fanwright::sheets {

/// One piece on its way: which figure, in which room, where its origin is (micrometres).
struct Item {
  std::size_t figure = 0;
  std::size_t room = 0;
  double x = 0, z = 0;
};

struct Neighbours {
  std::size_t one, other; ///< items
  KeepOut::Round about;   ///< where the other may not be, relative to the one
};

/// The pairs in the same room that are not farther than `reach_um` from where they may not be, as far as boxes tell.
std::vector<Neighbours> neighbours(const Figures& figures, const std::vector<Item>& items, double reach_um);

} // namespace fanwright::sheets
