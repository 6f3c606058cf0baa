#include "leaf/marks.h"

#include "leaf/contour.h"
#include "leaf/strip.h"

namespace fanwright::leaf {
namespace {

/// Counter-clockwise corners of the mirrored strip.
std::array<Point, 4> mirrored_corners(const std::array<Point, 4>& c) {
  const auto mirror = [](Point p) { return Point{-p.x, p.z}; };
  return {mirror(c[1]), mirror(c[0]), mirror(c[3]), mirror(c[2])};
}

/// Right half from foot to top, then its mirror image from top to foot.
Contour whole_outline(const Contour& half) {
  Contour right = half;
  right.segments.pop_back(); // the stretch along the spine, which build() leaves last
  const Contour left = reversed(mirrored(right));
  right.segments.insert(right.segments.end(), left.segments.begin(), left.segments.end());
  return right;
}

} // namespace

Marks marks(const Leaf& leaf) {
  Marks result;
  result.cut = whole_outline(leaf.outline);
  result.cut_outs = leaf.cut_outs;
  for (const Contour& hole : leaf.cut_outs)
    result.cut_outs.push_back(reversed(mirrored(hole)));
  result.score_foot = {0, leaf.spine_foot_z};
  result.score_top = {0, leaf.spine_top_z};
  for (std::size_t i = 0; i < leaf.rows.size(); ++i) {
    const Face face = leaf.rows[i].side == design::Side::inside ? Face::inner : Face::outer;
    const auto strip = corners(leaf.rows[i]);
    result.glue.push_back({i, Half::right, face, strip});
    result.glue.push_back({i, Half::left, face, mirrored_corners(strip)});
  }
  return result;
}

} // namespace fanwright::leaf
