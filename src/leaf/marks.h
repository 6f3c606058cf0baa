// Everything to be cut, scored and glued on one whole leaf, unfolded flat.
//
// Faces. The drawing shows the inner face: the face that turns inward when the leaf is folded on its spine. Right and
// left are as seen looking at that face. Folding brings the two halves of the inner face together, so an inside row is
// glued there: its strip on the right half meets its mirror image on the left half. The outer faces of the two halves
// meet the two neighbouring leaves, so a between row is glued there: the strip on the outer face of a right half meets
// the strip on the outer face of the next leaf's left half. Every leaf therefore carries every row on both halves,
// inside rows on the inner and between rows on the outer face; glue is needed on one of each two strips that meet.
// Marks on the outer face are given where they lie as seen through the paper from the inner face; looking at the outer
// face itself, x changes its sign.
#pragma once

#include "leaf/leaf.h"

#include <array>
#include <cstddef>
#include <vector>

namespace fanwright::leaf {

enum class Half { right, left };
enum class Face { inner, outer };

/// One strip of glue on one half.
struct GlueMark {
  std::size_t row = 0; ///< index into Leaf::rows
  Half half = Half::right;
  Face face = Face::inner;
  std::array<Point, 4> corners; ///< mm, counter-clockwise; x < 0 on the left half
};

struct Marks {
  Contour cut; ///< outline of the whole leaf, counter-clockwise from the spine's foot, spine not included
  std::vector<Contour> cut_outs; ///< clockwise; those of the right half, then their mirror images
  Point score_foot, score_top;   ///< ends of the score along the spine
  std::vector<GlueMark> glue;    ///< row by row, right half then left
};

Marks marks(const Leaf& leaf);

} // namespace fanwright::leaf
