// A leaf cut in two: its left half glued on the lap of its right half.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"

#include <algorithm>

namespace fanwright::booklet {
namespace {

/// The lap as drawn, from the spine's foot: wide enough to be seen, its ends at 45 degrees, less `border` all round.
leaf::Ring lap_of(const DrawnLeaf& leaf, double lap_mm, double border) {
  const double width = std::max(lap_mm, 0.06 * leaf.measure()), outer = width - border;
  const double foot = leaf.spine_foot + border, top = leaf.spine_top - border;
  return {{-border, foot + border}, {-border, top - border}, {-outer, top - outer}, {-outer, foot + outer}};
}

void draw_score(Easel& easel, const DrawnLeaf& leaf) {
  easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, hidden_line);
}

/// The right half with glue on its lap; the left half on its way.
void draw_gluing(Easel& easel, const DrawnLeaf& leaf, double lap_mm) {
  const double m = leaf.measure();
  const leaf::Ring lap = lap_of(leaf, lap_mm, 0), glue = lap_of(leaf, lap_mm, 0.012 * m);
  const double away = 0.1 * m - lap[2].x;
  draw_half(easel, leaf, flat_pose());
  easel.paper(posed(lap, flat_pose()));
  draw_glue(easel, {glue}, flat_pose());
  draw_score(easel, leaf);
  draw_half(easel, leaf, flat_pose(true, {-away, 0}));
  const double over = -leaf.top - 0.05 * m;
  easel.arrow({{-away - 0.3 * leaf.width, over}, {-away * 0.5, over - 0.04 * m}, {-0.02 * m, over}});
  easel.tag(Part::lap, {lap[2].x, -leaf.spine_foot - 0.2 * (leaf.spine_top - leaf.spine_foot)}, -2, 6);
  easel.tag(Part::score, {0, -leaf.spine_foot}, 5, 5);
  easel.tag(Part::inner_face, {0.5 * edge_beyond(leaf, 1e-6, widest_at(leaf)), -widest_at(leaf)}, 0, 0);
}

/// Joined: the lap lies under the left half.
void draw_joined(Easel& easel, const DrawnLeaf& leaf, double lap_mm) {
  draw_unfolded(easel, leaf);
  const Shape lap = posed(lap_of(leaf, lap_mm, 0), flat_pose());
  easel.line({lap[0], lap[3], lap[2], lap[1]}, hidden_line);
  easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, bold_line);
}

} // namespace

std::vector<Panel> joining(const Subject& subject, const DrawnLeaf& leaf) {
  return {{[&](Easel& easel) { draw_gluing(easel, leaf, subject.lap_mm); }},
          {[&](Easel& easel) { draw_joined(easel, leaf, subject.lap_mm); }}};
}

} // namespace fanwright::booklet
