// Where on a sheet a piece may lie.
#pragma once

#include "sheets/shape.h"
#include "sheets/sheets.h"

namespace fanwright::sheets {

/// Clearance that a search keeps beyond the gap, micrometres: rounding of regions (1) and of two places (1.42) and the
/// half micrometre of curves between grid points stay below it.
inline constexpr double search_slack_um = 4;

/// The gap between outlines in whole micrometres, at least 1; and the gap that rounded outlines must keep so that the
/// true ones keep the sheet's.
std::int64_t gap_um(const Sheet& sheet);
inline std::int64_t rounded_gap_um(const Sheet& sheet) { return gap_um(sheet) + 2; }

/// The sheet less its margins, micrometres; right < left when nothing is left.
Extent usable(const Sheet& sheet);

/// The places of a piece's origin at which its box lies in the room; empty (right < left) when it does not fit.
Extent places_in(const Extent& room, const Extent& piece);

inline bool fits(const Extent& places) { return places.left <= places.right && places.bottom <= places.top; }

/// A piece as a search sees it.
struct Profile {
  Shape shape;       ///< with few enough corners
  Extent box;        ///< of the true outline, rounded outward
  double off_um = 0; ///< the true outline lies nowhere farther from the shape
};

Profile profile_of(const leaf::Ring& outline, const std::vector<leaf::Ring>& holes = {});
Profile laid(const Profile& profile, Stance stance);

/// A piece as it lies on a sheet.
struct Laid {
  Stance stance;
  Spot at;
};

} // namespace fanwright::sheets
