// Pieces that may touch.
//
// Where several pieces fill a sheet exactly, only single points among all places leave them apart: no search comes upon
// them. So a search lets pieces sink into each other by some micrometres, and what it finds is brought apart here.
#pragma once

#include "sheets/separation.h"

namespace fanwright::sheets {

/// What a search found, made sound.
struct Mended {
  std::vector<Item> items; ///< none where they do not come apart
  std::int64_t work = 0;   ///< in places looked at
};

class Touching {
public:
  /// How far pieces sink into each other while places for them are searched, micrometres.
  static constexpr double sunk_um = 30;

  explicit Touching(const std::vector<SearchedKind>& kinds);

  /// For the search.
  const Figures& searched() const { return searched_; }

  /// Items of one room at whole micrometres, their outlines free of common area; the room may have to be a little
  /// longer to the right. `items` sink into each other by `sunk_um` at most.
  Mended apart(const std::vector<Item>& items, const Extent& room) const;

private:
  bool bring_apart(Mended& mended, const Extent& room) const;
  bool sound(const std::vector<Item>& items) const;

  std::vector<Shape> shapes_; ///< by figure
  Figures searched_, kept_;
};

} // namespace fanwright::sheets
