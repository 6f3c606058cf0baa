// Opening the block, closing the circle, freeing cells.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::booklet {
namespace {

constexpr Viewer block_viewer{28, 24};
constexpr double closed_deg = 14; // how far the closed block is fanned out in plan, for its leaves to be seen

/// The glued block standing on its foot, its open edges towards the viewer's right.
void draw_standing_block(Easel& easel, const Subject& subject, const DrawnLeaf& leaf) {
  constexpr int most_layers = 12;
  const int layers = std::min(2 * subject.size->leaves, most_layers);
  const double thick = std::clamp(2.0 * subject.size->leaves * subject.size->paper.caliper_mm, 0.14 * leaf.measure(),
                                  0.35 * leaf.measure());
  for (int k = 0; k < layers; ++k) {
    const double away = thick * (layers - 1 - k) / layers;
    const auto pose = [&](leaf::Point p) { return block_viewer.at(p.x, away, p.z); };
    draw_half(easel, leaf, pose, k + 1 == layers ? pale : white, k + 1 == layers ? Stroke{} : thin_line);
  }
}

const Stroke plan_line{0.12, ink, {}};

/// Seen from above: leaves round the hub at `middle` from `from_deg` through `opening_deg`, clockwise as seen.
void draw_plan(Easel& easel, drawing::Point middle, double radius, int leaves, double from_deg, double opening_deg) {
  const int drawn = std::clamp(leaves, 2, 60);
  const double wedge = opening_deg / drawn * std::numbers::pi / 180, from = from_deg * std::numbers::pi / 180;
  const double hub = 0.05 * radius;
  for (int k = 0; k < drawn; ++k) {
    const double a = from + (k + 0.22) * wedge, b = from + (k + 0.78) * wedge, m = from + (k + 0.5) * wedge;
    easel.line({{middle.x + radius * std::cos(a), middle.y + radius * std::sin(a)},
                {middle.x + hub * std::cos(m), middle.y + hub * std::sin(m)},
                {middle.x + radius * std::cos(b), middle.y + radius * std::sin(b)}},
               plan_line);
  }
}

void draw_view(Easel& easel, const OpenedView& view) {
  easel.drawn(view.page, {-view.spine_foot.x, -view.spine_foot.y}, 1);
}

/// Bent towards the viewer at both ends: the ends of the fan are led round.
void draw_turning_arrows(Easel& easel, drawing::Point middle, double radius, double flat) {
  easel.arrow(arc(middle, radius, radius * flat, 250, 185));
  easel.arrow(arc(middle, radius, radius * flat, 290, 355));
}

void draw_on_the_way(Easel& easel, const Subject& subject, const DrawnLeaf& leaf, OpenedView OpenedViews::*which,
                     double share) {
  if (subject.views)
    draw_view(easel, subject.views->*which);
  else {
    const double opening = subject.size->opening_deg * share;
    draw_plan(easel, {0, 0}, leaf.width, subject.size->leaves, 90 - opening / 2, opening);
  }
}

/// The same under a picture, small, within the whole opening dashed: that has one height under all pictures, so that
/// they stand level.
void draw_plan_under(Easel& easel, const Subject& subject, const DrawnLeaf& leaf, double opening_deg) {
  constexpr double degrees_a_leaf = 14; // narrower ones would run together at this size
  const double radius = 0.15 * leaf.measure(), whole_deg = subject.size->opening_deg;
  const drawing::Point middle{(easel.extent().left + easel.extent().right) / 2 / easel.scale(),
                              easel.extent().bottom / easel.scale() + 1.25 * radius};
  const auto sector = [&](double degrees) { return arc(middle, radius, radius, 90 - degrees / 2, 90 + degrees / 2); };
  easel.line(sector(whole_deg), {thin_mm, mid_grey, {0.8, 0.6}});
  Shape opened = sector(opening_deg);
  opened.push_back(middle);
  easel.fill(opened, accent_tint);
  const int most = std::max(2, static_cast<int>(opening_deg / degrees_a_leaf));
  draw_plan(easel, middle, radius, std::min(subject.size->leaves, most), 90 - opening_deg / 2, opening_deg);
}

} // namespace

std::vector<Panel> opening(const Subject& subject, const DrawnLeaf& leaf) {
  const auto block = [&](Easel& easel) {
    draw_standing_block(easel, subject, leaf);
    const double z = leaf.bottom + 0.3 * leaf.height();
    easel.tag(Part::first_leaf, block_viewer.at(0.5 * reach_at(leaf, z), 0, z), 0, 0);
    if (subject.views)
      draw_plan_under(easel, subject, leaf, closed_deg);
  };
  const auto part = [&](OpenedView OpenedViews::*which, double share) {
    return [&subject, &leaf, which, share](Easel& easel) {
      draw_on_the_way(easel, subject, leaf, which, share);
      if (share < 1)
        draw_turning_arrows(easel, {0, easel.extent().top / easel.scale()}, 0.55 * leaf.width, 0.4);
      if (subject.views)
        draw_plan_under(easel, subject, leaf, share * subject.size->opening_deg);
    };
  };
  return {{block, 1, true},
          {part(&OpenedViews::third, 1.0 / 3), 1, true},
          {part(&OpenedViews::two_thirds, 2.0 / 3), 1, true},
          {part(&OpenedViews::whole, 1), 1, true}};
}

namespace {

constexpr Viewer seam_viewer{0, 28};

/// First and last leaf like the covers of a book, glue on the outer face of one.
void draw_covers(Easel& easel, const DrawnLeaf& leaf) {
  const Pose left = hinged_pose(seam_viewer, 212), right = hinged_pose(seam_viewer, 328);
  draw_half(easel, leaf, left, pale);
  draw_half(easel, leaf, right, pale);
  draw_glue(easel, leaf.between, right);
  const auto top = [&](double angle_deg, double share) {
    return hinged_pose(seam_viewer, angle_deg)({share * leaf.width, leaf.top + 0.05 * leaf.measure()});
  };
  Shape from_left, from_right;
  for (int k = 0; k <= 12; ++k) {
    from_left.push_back(top(212 + 4 * k, 0.8));
    from_right.push_back(top(328 - 4 * k, 0.8));
  }
  easel.arrow(from_left);
  easel.arrow(from_right);
  const double z = leaf.bottom + 0.2 * leaf.height(), x = reach_at(leaf, z) * 0.6;
  easel.tag(Part::first_leaf, left({x, z}), 0, 0);
  easel.tag(Part::last_leaf, right({x, z}), 0, 0);
}

/// Edge of the paper beside at most four between rows that have enough of it for a clip, evenly chosen.
std::vector<leaf::Point> clipped_places(const DrawnLeaf& leaf) {
  constexpr std::size_t most = 4;
  std::vector<leaf::Point> places, chosen;
  for (const auto& strip : leaf.between) {
    const double z = (strip[1].z + strip[2].z) / 2, x = edge_beyond(leaf, strip[1].x, z);
    if (x > 0.4 * leaf.width)
      places.push_back({x, z});
  }
  const std::size_t count = std::min(most, places.size());
  for (std::size_t k = 0; k < count; ++k)
    chosen.push_back(places[(2 * k + 1) * places.size() / (2 * count)]);
  return chosen;
}

/// Both laid on each other, held by clips on the edge.
void draw_clipped(Easel& easel, const DrawnLeaf& leaf) {
  const double m = leaf.measure();
  draw_half(easel, leaf, flat_pose(false, {0.012 * m, -0.012 * m}));
  draw_half(easel, leaf, flat_pose(), pale);
  for (const auto& strip : leaf.between)
    easel.line(posed(strip, flat_pose()), {thin_mm, accent, {1.0, 0.7}}, true);
  bool tagged = false;
  for (const auto& place : clipped_places(leaf)) {
    const double length = 0.22 * m;
    const Held clip{{std::max(place.x, 0.45 * length), -place.z}, 0, length}; // jaws short of the spine
    draw_clip(easel, clip);
    if (!tagged)
      easel.tag(Part::clip, clip.at(0.55), 4, 4.5);
    tagged = true;
  }
}

} // namespace

std::vector<Panel> seam(const Subject& subject, const DrawnLeaf& leaf) {
  std::vector<Panel> panels;
  if (subject.views)
    panels.push_back({[&](Easel& easel) {
      draw_view(easel, subject.views->nearly);
      const auto& view = subject.views->nearly;
      const double high = view.spine_top.y - view.spine_foot.y;
      easel.tag(Part::seam, {0, high / 2}, 0, 0);
    }});
  panels.push_back({[&](Easel& easel) { draw_covers(easel, leaf); }});
  panels.push_back({[&](Easel& easel) { draw_clipped(easel, leaf); }});
  return panels;
}

std::vector<Panel> backing(const Subject& subject, const DrawnLeaf& leaf) {
  const auto plan = [&](Easel& easel) {
    const double radius = leaf.width, opening = subject.size->opening_deg, beyond = 1.12;
    const double from = 90 - opening / 2, first = from * std::numbers::pi / 180,
                 last = (from + opening) * std::numbers::pi / 180;
    draw_plan(easel, {0, 0}, radius, subject.size->leaves, from, opening);
    const drawing::Point a{radius * std::cos(first), radius * std::sin(first)},
        b{radius * std::cos(last), radius * std::sin(last)};
    for (const auto& end : {a, b}) {
      easel.line({{0, 0}, {end.x * beyond, end.y * beyond}}, {1.0, ink, {}});
      easel.line({{0.1 * end.x, 0.1 * end.y}, {0.97 * end.x, 0.97 * end.y}}, {0.6, accent, {}});
    }
    easel.tag(Part::first_leaf, {0.6 * a.x, 0.6 * a.y}, 3, -6);
    easel.tag(Part::last_leaf, {0.6 * b.x, 0.6 * b.y}, -3, -6);
    easel.tag(Part::backing_card, {1.1 * a.x, 1.1 * a.y}, 2, -7);
  };
  const auto glued = [&](Easel& easel) {
    draw_half(easel, leaf, flat_pose(), pale);
    draw_glue(easel, leaf.between, flat_pose());
    const auto& low = leaf.between.front();
    easel.tag(Part::between_row, {low[2].x, -(low[1].z + low[2].z) / 2}, 8, 3);
  };
  return {{plan}, {glued}};
}

namespace {

/// Edges of neighbouring half-panels seen from in front, unrolled: they meet a neighbour at every row.
struct Cells {
  std::vector<leaf::GlueRow> rows; ///< those in the picture, from low to high
  double low = 0, high = 0, pitch = 0;
  int stuck_panel = 5;       ///< this half-panel and the next are glued to each other ...
  std::size_t stuck_row = 2; ///< ... between this row and the next

  static double middle(const leaf::GlueRow& row) { return (row.from.z + row.to.z) / 2; }

  double wall(int k, std::size_t row) const {
    return pitch * (k + ((k % 2 == 0) == (rows[row].side == design::Side::between) ? 1 : 0));
  }

  /// Sideways place of half-panel `k` at height `z`: on its row's wall, in between a smooth S.
  double at(int k, double z) const {
    for (std::size_t r = 0; r + 1 < rows.size(); ++r) {
      const double from = middle(rows[r]) + rows[r].width_mm / 2, to = middle(rows[r + 1]) - rows[r + 1].width_mm / 2;
      if (z > to)
        continue;
      double share = std::clamp((z - from) / (to - from), 0.0, 1.0);
      if (r == stuck_row && (k == stuck_panel || k == stuck_panel + 1)) // held together for two thirds, then apart
        share =
            wall(stuck_panel, r) == wall(stuck_panel + 1, r) ? std::max(0.0, 3 * share - 2) : std::min(1.0, 3 * share);
      return wall(k, r) + (wall(k, r + 1) - wall(k, r)) * share * share * (3 - 2 * share);
    }
    return wall(k, rows.size() - 1);
  }
};

Cells cells_of(const DrawnLeaf& leaf) {
  constexpr std::size_t shown = 6;
  Cells cells;
  const std::size_t count = std::min(shown, leaf.rows.size()), first = (leaf.rows.size() - count) / 2;
  cells.rows.assign(leaf.rows.begin() + static_cast<std::ptrdiff_t>(first),
                    leaf.rows.begin() + static_cast<std::ptrdiff_t>(first + count));
  cells.low = Cells::middle(cells.rows.front()) - cells.rows.front().width_mm;
  cells.high = Cells::middle(cells.rows.back()) + cells.rows.back().width_mm;
  cells.pitch = 0.34 * (cells.high - cells.low) / static_cast<double>(count);
  cells.stuck_row = std::min<std::size_t>(2, count > 1 ? count - 2 : 0);
  // The two that are met by the row below, so that they stick from there upward.
  if (cells.wall(cells.stuck_panel, cells.stuck_row) != cells.wall(cells.stuck_panel + 1, cells.stuck_row))
    ++cells.stuck_panel;
  return cells;
}

Shape edge_of(const Cells& cells, int k) {
  constexpr int steps = 160;
  Shape shape;
  for (int s = 0; s <= steps; ++s) {
    const double z = cells.low + (cells.high - cells.low) * s / steps;
    shape.push_back({cells.at(k, z), -z});
  }
  return shape;
}

void draw_cells(Easel& easel, const Cells& cells) {
  constexpr int half_panels = 12;
  for (int k = 0; k < half_panels; ++k)
    easel.line(edge_of(cells, k));
  for (std::size_t r = 0; r < cells.rows.size(); ++r) {
    const double z = Cells::middle(cells.rows[r]), half = cells.rows[r].width_mm / 2;
    for (int k = 0; k + 1 < half_panels; ++k)
      if (cells.wall(k, r) == cells.wall(k + 1, r))
        easel.line({{cells.wall(k, r), -z - half}, {cells.wall(k, r), -z + half}}, {0.9, accent, {}});
  }
}

void draw_freeing(Easel& easel, const DrawnLeaf& leaf) {
  const Cells cells = cells_of(leaf);
  draw_cells(easel, cells);
  const std::size_t next = std::min(cells.stuck_row + 1, cells.rows.size() - 1);
  const double from = Cells::middle(cells.rows[cells.stuck_row]), to = Cells::middle(cells.rows[next]);
  const double x = cells.wall(cells.stuck_panel, cells.stuck_row), end = from + 0.6 * (to - from);
  const double m = cells.high - cells.low;
  easel.line({{x, -from}, {x, -end}}, {1.3, accent, {}});
  const Held blade{{x, -end}, 280, 0.75 * m};
  draw_blunt_blade(easel, blade);
  easel.arrow({{x - 0.07 * m, -end - 0.24 * m}, {x - 0.07 * m, -end - 0.02 * m}});
  easel.tag(Part::stuck_cell, {x, -(from + 0.3 * (to - from))}, -9, 7);
  easel.tag(Part::blunt_blade, blade.at(0.75, 0.0), 8, 2);
}

} // namespace

std::vector<Panel> stuck_cells(const Subject& subject, const DrawnLeaf& leaf) {
  std::vector<Panel> panels;
  if (subject.views)
    panels.push_back({[&](Easel& easel) {
      const OpenedView& view = subject.views->whole;
      draw_view(easel, view);
      const double high = view.spine_top.y - view.spine_foot.y, half = 0.11 * leaf.measure(), y = 0.42 * high;
      easel.line({{-half, y - half}, {half, y - half}, {half, y + half}, {-half, y + half}}, {0.7, accent, {}}, true);
      easel.arrow({{half, y}, {leaf.width + 0.16 * leaf.measure(), y}});
    }});
  panels.push_back({[&](Easel& easel) { draw_freeing(easel, leaf); },
                    leaf.height() / (cells_of(leaf).high - cells_of(leaf).low) * 0.85});
  return panels;
}

} // namespace fanwright::booklet
