// A half without what no knife follows: gaps closed, slivers and specks dropped, what is merely fine marked. Leaf
// coordinates, mm.
#pragma once

#include "traced/plane.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::traced {

/// A place that a knife can hardly cut.
struct Mark {
  Point place;
  double size_mm = 0;
  std::string sentence;
};

struct Cleaned {
  Area area;
  Areas filled;                   ///< gaps that were closed
  Areas dropped;                  ///< slivers
  std::vector<std::string> notes; ///< sentences about what was changed
  bool too_ragged = false;        ///< more slivers than can be looked at; nothing more was done
};

/// Slits narrower than `slit_mm` are closed; paper narrower than `bridge_mm` is dropped where it is a hair or the only
/// link to a part, and kept where it is the tip of something; cut-outs below `speck_mm2` are filled.
Cleaned cleaned(const Area& half, double slit_mm, double bridge_mm, double speck_mm2);

/// What stays but is finer than a hand knife cuts (limits in fit/check_limits.h): narrow cut-outs, narrow bridges and
/// narrow gaps. Empty when there are more narrow bridges than can be looked at.
std::optional<std::vector<Mark>> fine_details(const Area& half);

/// Inward curves that are tighter than a hand knife follows, of lines that keep the paper on their left.
std::vector<Mark> tight_curves(const std::vector<leaf::Contour>& lines);

} // namespace fanwright::traced
