// The cut lines of one size: path data scaled to the size, turned the right way and checked.
#pragma once

#include "design/design.h"
#include "leaf/outline.h"

#include <variant>
#include <vector>

namespace fanwright::leaf {

/// Cut lines of the right half, mm.
struct Silhouette {
  Contour outline; ///< counter-clockwise from the spine's foot; its last segment alone is the spine, a line
  std::vector<Contour> cut_outs; ///< clockwise
  double scale = 1;              ///< drawn mm -> mm of this size
};

/// Takes the first subpath as outline (either way round; open, or closed along the spine), the others as cut-outs.
/// Refusals name "/silhouette/path", or the size's "/height" where the height is at fault.
std::variant<Silhouette, design::Refusal> silhouette(const design::Design& design, const design::Size& size);

} // namespace fanwright::leaf
