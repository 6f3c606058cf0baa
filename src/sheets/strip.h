// Pieces on the shortest stretch of a roll.
//
// Based on the phases of Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329 (2025): exploration of shorter and shorter
// strips from arrangements that still overlap, then compression of the best one in small steps.
#pragma once

#include "sheets/touching.h"

namespace fanwright::sheets {

struct StripWish {
  std::int64_t height_um = 0;     ///< of the strip
  std::vector<std::size_t> kinds; ///< one entry for each piece
  std::uint64_t seed = 1;
  std::int64_t work = 0;                ///< places to look at, in all
  std::function<double()> share_done;   ///< of another budget, 0..1, in place of work; the result then depends on it
  std::function<bool()> stop;           ///< asked now and then; may be empty
  std::function<void(double)> progress; ///< 0..1; may be empty
  /// Makes what a search finds sound; may be empty where it is sound as it is.
  std::function<Mended(const std::vector<Item>&, const Extent& room)> mended;
};

struct Strip {
  std::int64_t length_um = 0;
  std::vector<Item> items; ///< without overlap
  std::int64_t work = 0;   ///< places looked at
};

/// Empty items when even a long strip could not be laid before it was stopped.
Strip shortest_strip(const Figures& figures, const StripWish& wish);

} // namespace fanwright::sheets
