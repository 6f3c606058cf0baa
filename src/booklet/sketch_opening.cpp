// Opening the block, closing the circle, freeing cells.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::booklet {
namespace {

constexpr Viewer block_viewer{-30, 24};

/// The glued block standing on its foot, its open edges towards the viewer's right.
void draw_standing_block(Easel& easel, const Subject& subject, const DrawnLeaf& leaf) {
  const int layers = std::min(2 * subject.size->leaves, 28);
  const double thick = std::clamp(2.0 * subject.size->leaves * subject.size->paper.caliper_mm, 0.04 * leaf.measure(),
                                  0.35 * leaf.measure());
  for (int k = 0; k < layers; ++k) {
    const double away = thick * (layers - 1 - k) / layers;
    draw_half(
        easel, leaf, [&](leaf::Point p) { return block_viewer.at(p.x, away, p.z); }, k + 1 == layers ? pale : white,
        k + 1 == layers ? Stroke{} : Stroke{0.13, ink, {}});
  }
}

/// Seen from above: leaves round the hub from `from_deg` through `opening_deg`, clockwise as seen.
void draw_plan(Easel& easel, double radius, int leaves, double from_deg, double opening_deg) {
  const int drawn = std::clamp(leaves, 2, 60);
  const double wedge = opening_deg / drawn * std::numbers::pi / 180, from = from_deg * std::numbers::pi / 180;
  const double hub = 0.05 * radius;
  for (int k = 0; k < drawn; ++k) {
    const double a = from + (k + 0.22) * wedge, b = from + (k + 0.78) * wedge, m = from + (k + 0.5) * wedge;
    easel.line({{radius * std::cos(a), radius * std::sin(a)},
                {hub * std::cos(m), hub * std::sin(m)},
                {radius * std::cos(b), radius * std::sin(b)}},
               thin_line);
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
    draw_plan(easel, leaf.width, subject.size->leaves, 90 - opening / 2, opening);
  }
}

} // namespace

std::vector<Panel> opening(const Subject& subject, const DrawnLeaf& leaf) {
  const auto block = [&](Easel& easel) {
    draw_standing_block(easel, subject, leaf);
    const double m = leaf.measure();
    easel.tag(Part::last_leaf, block_viewer.at(0.5 * leaf.width, 0, leaf.bottom + 0.3 * leaf.height()), 0, 0);
    easel.arrow(
        {block_viewer.at(leaf.width, 0, leaf.middle()), block_viewer.at(leaf.width, 0, leaf.middle() - 0.0 * m)});
  };
  const auto part = [&](OpenedView OpenedViews::*which, double share) {
    return [&subject, &leaf, which, share](Easel& easel) {
      draw_on_the_way(easel, subject, leaf, which, share);
      if (share < 1) {
        const double high = subject.views ? (subject.views->*which).spine_top.y - (subject.views->*which).spine_foot.y
                                          : -0.1 * leaf.width;
        draw_turning_arrows(easel, {0, high - 0.02 * leaf.measure()}, 0.55 * leaf.width, 0.4);
      }
    };
  };
  return {{block},
          {part(&OpenedViews::third, 1.0 / 3)},
          {part(&OpenedViews::two_thirds, 2.0 / 3)},
          {part(&OpenedViews::whole, 1)}};
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

/// Both laid on each other, a clip on the edge at every second between row at most, six in all.
void draw_clipped(Easel& easel, const DrawnLeaf& leaf) {
  const double m = leaf.measure();
  draw_half(easel, leaf, flat_pose(false, {0.012 * m, -0.012 * m}));
  draw_half(easel, leaf, flat_pose(), pale);
  for (const auto& strip : leaf.between)
    easel.line(posed(strip, flat_pose()), {thin_mm, accent, {1.0, 0.7}}, true);
  const std::size_t step = (leaf.between.size() + 5) / 6;
  bool tagged = false;
  for (std::size_t k = step / 2; k < leaf.between.size(); k += step) {
    const auto& strip = leaf.between[k];
    const double z = (strip[1].z + strip[2].z) / 2, x = reach_at(leaf, z);
    const Held clip{{x - 0.03 * m, -z}, 0, 0.16 * m};
    draw_clip(easel, clip);
    if (!tagged)
      easel.tag(Part::clip, clip.at(0.6), 4, 4.5);
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
      easel.tag(Part::seam, {0, high / 2}, 0, -high / 2 * -easel.scale() * 0 - 0);
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
    draw_plan(easel, radius, subject.size->leaves, from, opening);
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
  };
  return {{plan}, {glued}};
}

namespace {

/// Edges of neighbouring half-panels seen from in front, unrolled: they meet a neighbour at every row.
struct Cells {
  std::vector<leaf::GlueRow> rows; ///< those in the picture, from low to high
  double low = 0, high = 0, pitch = 0;

  /// Sideways place of half-panel `k` at height `z`: on its row's wall, in between a smooth S.
  double at(int k, double z) const {
    const auto wall = [&](const leaf::GlueRow& row) {
      const bool up = (k % 2 == 0) == (row.side == design::Side::between);
      return pitch * (k + (up ? 1 : 0));
    };
    const auto middle = [](const leaf::GlueRow& row) { return (row.from.z + row.to.z) / 2; };
    for (std::size_t r = 0; r + 1 < rows.size(); ++r) {
      const double from = middle(rows[r]) + rows[r].width_mm / 2, to = middle(rows[r + 1]) - rows[r + 1].width_mm / 2;
      if (z > to)
        continue;
      const double share = std::clamp((z - from) / (to - from), 0.0, 1.0);
      return wall(rows[r]) + (wall(rows[r + 1]) - wall(rows[r])) * share * share * (3 - 2 * share);
    }
    return wall(rows.back());
  }
};

Cells cells_of(const DrawnLeaf& leaf) {
  constexpr std::size_t shown = 6;
  Cells cells;
  const std::size_t count = std::min(shown, leaf.rows.size()), first = (leaf.rows.size() - count) / 2;
  cells.rows.assign(leaf.rows.begin() + static_cast<std::ptrdiff_t>(first),
                    leaf.rows.begin() + static_cast<std::ptrdiff_t>(first + count));
  cells.low = (cells.rows.front().from.z + cells.rows.front().to.z) / 2 - cells.rows.front().width_mm;
  cells.high = (cells.rows.back().from.z + cells.rows.back().to.z) / 2 + cells.rows.back().width_mm;
  cells.pitch = 0.34 * (cells.high - cells.low) / static_cast<double>(count);
  return cells;
}

Shape edge_of(const Cells& cells, int k) {
  constexpr int steps = 120;
  Shape shape;
  for (int s = 0; s <= steps; ++s) {
    const double z = cells.low + (cells.high - cells.low) * s / steps;
    shape.push_back({cells.at(k, z), -z});
  }
  return shape;
}

} // namespace

std::vector<Panel> stuck_cells(const DrawnLeaf& leaf) {
  const auto freeing = [cells = cells_of(leaf)](Easel& easel) {
    constexpr int half_panels = 12;
    for (int k = 0; k < half_panels; ++k)
      easel.line(edge_of(cells, k));
    for (const auto& row : cells.rows) {
      const double z = (row.from.z + row.to.z) / 2;
      for (int k = 0; k + 1 < half_panels; ++k)
        if (std::abs(cells.at(k, z) - cells.at(k + 1, z)) < 1e-6 * cells.pitch)
          easel.line({{cells.at(k, z), -z - row.width_mm / 2}, {cells.at(k, z), -z + row.width_mm / 2}},
                     {0.9, accent, {}});
    }
  };
  return {{freeing}};
}

} // namespace fanwright::booklet
