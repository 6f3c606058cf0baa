// Pieces of which it is plain by hand what goes with what.
#pragma once

#include "sheets/separation.h"

namespace fanwright::sheets {

/// A bar that fills the width of a room of 100 mm, with a gap of 2 mm, and may not be turned.
inline SearchedKind bar(double height_mm) {
  return {profile_of({{0, 0}, {98, 0}, {98, height_mm}, {0, height_mm}}), {{0, false}}};
}

} // namespace fanwright::sheets
