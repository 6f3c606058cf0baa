// What a knife does to one leaf, in the order it should: what is inside before what holds it.
//
// Nicks mark the rows where no print shall be: short slits across the spine's fold at the height where a row begins,
// one for an inside row, two for a between row. Folded and glued they lie in the hub, where nobody looks.
#pragma once

#include "design/design.h"
#include "leaf/marks.h"

#include <vector>

namespace fanwright::kit {

/// Knives leave at least this much paper between two cuts, mm (bridges of 1 to 1.5 mm in 160 to 220 g/m2: common
/// practice, no source).
inline constexpr double least_bridge_mm = 1.0;
inline constexpr double nick_mm = 1.5;      ///< length of a nick, half on each side of the fold
inline constexpr double nick_pair_mm = 1.5; ///< between the two nicks of a between row

/// A straight cut or score.
struct Slit {
  leaf::Point from, to;
};

struct LeafCuts {
  std::vector<Slit> score;                  ///< one line, or none when the spine is cut in dashes
  std::vector<Slit> dashed;                 ///< stretches of the spine to be cut in dashes
  double dash_mm = 0, gap_mm = 0;           ///< of these dashes: cut, and left whole
  std::vector<Slit> nicks;                  ///< across the spine
  std::vector<leaf::Contour> cut_outs;      ///< small before large, each begun next to the spine
  leaf::Contour outline;                    ///< begun at the spine's foot, which lies in the hub
  std::vector<std::size_t> rows_not_nicked; ///< rows without room for their nicks, indices into Leaf::rows
};

/// All cuts of a whole leaf, by the maker's wishes for score and marks. Dashes keep clear of nicks, nicks of each other
/// and of every other cut, all of them by least_bridge_mm.
LeafCuts leaf_cuts(const leaf::Leaf& leaf, const leaf::Marks& marks, const design::Making& making);

/// Outline and cut-outs alone, in the same order.
LeafCuts plain_cuts(const leaf::Marks& marks);

} // namespace fanwright::kit
