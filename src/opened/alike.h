// Which cells of a leaf's sheet are those of the leaf before: what was made for them serves again.
#pragma once

#include "opened/grid.h"
#include "opened/pieces.h"

#include <vector>

namespace fanwright::opened {

/// Grid and pieces that belong together.
struct Cut {
  const Grid& grid;
  const Pieces& pieces;
};

/// Of each piece the one of `before` that has the same paper under the same splines; -1 where there is none.
std::vector<int> alike_pieces(const Cut& now, const Cut& before);

} // namespace fanwright::opened
