// Pieces of several kinds on as few rooms as found.
//
// Based on: Schrimpf et al., "Record breaking optimization results using the ruin and recreate principle", J. Comput.
// Phys. 159 (2000): the emptiest room is given up and its pieces are brought into the others by separation.
#pragma once

#include "sheets/separation.h"

#include <optional>

namespace fanwright::sheets {

struct MixedWish {
  std::vector<Extent> rooms;      ///< of which the first ones are used
  std::vector<std::size_t> kinds; ///< one entry for each piece
  std::size_t fewest = 1;         ///< rooms no layout can do without
  std::uint64_t seed = 1;
  std::int64_t work = 0;
  std::function<bool()> stop;           ///< may be empty
  std::function<void(double)> progress; ///< 0..1; may be empty
};

struct Mixed {
  std::vector<Item> items; ///< without overlap; empty when the rooms did not do
  std::size_t rooms = 0;   ///< used
  std::int64_t work = 0;
};

Mixed fewest_rooms(const Figures& figures, const MixedWish& wish);

/// The items of one room drawn to its left side, as far as the work reaches; same order.
std::vector<Item> drawn_left(const Figures& figures, const Extent& room, std::vector<Item> items, std::int64_t work,
                             std::uint64_t seed, const std::function<bool()>& stop);

} // namespace fanwright::sheets
