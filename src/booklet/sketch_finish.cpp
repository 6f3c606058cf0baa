// What carries, adorns and keeps the finished ornament.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"

#include <algorithm>
#include <cmath>

namespace fanwright::booklet {
namespace {

/// How an ornament is drawn here: its axis on x = 0, its spine's foot on y = 0.
struct Standing {
  double left = 0, right = 0, top = 0, bottom = 0, spine_top = 0;
};

Standing draw_standing(Easel& easel, const OpenedView* view, const DrawnLeaf& leaf) {
  if (view) {
    easel.drawn(view->page, {-view->spine_foot.x, -view->spine_foot.y}, 1);
    return {-view->spine_foot.x, view->page.width_mm - view->spine_foot.x, -view->spine_foot.y,
            view->page.height_mm - view->spine_foot.y, view->spine_top.y - view->spine_foot.y};
  }
  const drawing::Point origin{0, leaf.spine_foot};
  draw_half(easel, leaf, flat_pose(false, origin));
  draw_half(easel, leaf, flat_pose(true, origin));
  return {-leaf.width, leaf.width, leaf.spine_foot - leaf.top, leaf.spine_foot - leaf.bottom,
          leaf.spine_foot - leaf.spine_top};
}

const OpenedView* whole_of(const Subject& subject) { return subject.views ? &subject.views->whole : nullptr; }

/// Points at even distances along a chain.
Shape evenly(const Shape& shape, double step) {
  Shape even;
  double next = 0;
  for (std::size_t k = 0; k + 1 < shape.size(); ++k) {
    const double dx = shape[k + 1].x - shape[k].x, dy = shape[k + 1].y - shape[k].y, length = std::hypot(dx, dy);
    for (; next < length; next += step)
      even.push_back({shape[k].x + dx * next / length, shape[k].y + dy * next / length});
    next -= length;
  }
  return even;
}

/// Grains of glitter on the edges that are seen, from `from_x` to the right, at even distances.
void draw_grains(Easel& easel, const OpenedView& view, double from_x, double step, double radius) {
  std::vector<Shape> grains;
  for (const auto& item : view.page.items)
    if (const auto* path = std::get_if<drawing::Path>(&item))
      for (const Shape& stretch : stretches_of(*path))
        for (const auto& point : evenly(stretch, step))
          if (const double x = point.x - view.spine_foot.x, y = point.y - view.spine_foot.y; x > from_x)
            grains.push_back({{x - radius, y}, {x, y - radius}, {x + radius, y}, {x, y + radius}});
  easel.fill(grains, accent);
}

/// The part of the half above `z`.
DrawnLeaf above(const DrawnLeaf& leaf, double z) {
  DrawnLeaf part = leaf;
  const auto clipped = [z](const leaf::Ring& ring) {
    leaf::Ring kept;
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const auto &a = ring[k], &b = ring[(k + 1) % ring.size()];
      if (a.z >= z)
        kept.push_back(a);
      if ((a.z >= z) != (b.z >= z))
        kept.push_back({a.x + (b.x - a.x) * (z - a.z) / (b.z - a.z), z});
    }
    return kept;
  };
  part.half = clipped(leaf.half);
  part.cut_outs.clear();
  for (const auto& cut_out : leaf.cut_outs)
    if (auto ring = clipped(cut_out); ring.size() > 2)
      part.cut_outs.push_back(std::move(ring));
  return part;
}

} // namespace

std::vector<Panel> foot(const Subject& subject, const DrawnLeaf& leaf) {
  const auto setting = [&](Easel& easel) {
    const Standing s = draw_standing(easel, whole_of(subject), leaf);
    const double radius = 0.5 * leaf.width, flat = 0.4, low = s.bottom + 0.22 * leaf.measure() + radius * flat;
    for (const double side : {-1.0, 1.0})
      easel.line({{side * radius, low}, {side * radius, s.bottom - 0.02 * leaf.measure()}}, hidden_line);
    easel.paper(arc({0, low + 0.02 * leaf.measure()}, radius, radius * flat, 0, 360), pale);
    easel.paper(arc({0, low}, radius, radius * flat, 0, 360));
    easel.arrow({{0, low}, {0, s.bottom + 0.03 * leaf.measure()}});
    easel.tag(Part::foot_disc, {radius, low}, 5, 2);
  };
  const auto from_below = [&](Easel& easel) {
    const OpenedView& view = subject.views->below;
    draw_standing(easel, &view, leaf);
    const double radius = 0.5 * leaf.width, flat = 0.53; // sine of 32 degrees
    easel.paper(arc({0, 0}, radius, radius * flat, 0, 360));
    easel.tag(Part::foot_disc, {radius * 0.5, 0}, 0, 0);
  };
  if (subject.views)
    return {{setting}, {from_below}};
  return {{setting}};
}

std::vector<Panel> hanger(const Subject& subject, const DrawnLeaf& leaf) {
  const auto hanging = [&](Easel& easel) {
    const double m = leaf.measure(), bead = 0.035 * m;
    const Standing s = draw_standing(easel, whole_of(subject), leaf);
    const double top = s.spine_top, loop = std::min(top, s.top) - 0.42 * m;
    for (const double side : {-1.0, 1.0})
      easel.line(curve({0, top - bead}, {side * 0.02 * m, top - 0.12 * m}, {side * 0.1 * m, loop}, {0, loop}));
    easel.paper(arc({0, top - bead}, bead, bead, 0, 360), accent_tint);
    easel.tag(Part::thread, {0, loop}, 6, 2);
    easel.tag(Part::bead, {bead, top - bead}, 7, -4);
  };
  const auto threading = [&](Easel& easel) {
    const double m = 0.3 * leaf.measure(), low = leaf.spine_top - m, top = -leaf.spine_top, bead = 0.07 * m;
    const drawing::Point hole{0.09 * m, top + 0.16 * m}, at{0.09 * m, top - 0.5 * m};
    const DrawnLeaf part = above(leaf, low);
    // Behind both halves, round the fold and up.
    easel.line(curve(hole, {-0.25 * m, hole.y - 0.02 * m}, {-0.2 * m, top - 0.2 * m}, at));
    draw_half(easel, part, flat_pose(false, {0.03 * m, -0.03 * m}));
    draw_half(easel, part, flat_pose(), pale);
    easel.line({{0, -low}, {0, top}}, bold_line);
    easel.fill(arc(hole, 0.03 * m, 0.03 * m, 0, 360), ink);
    easel.line(curve(hole, {0.14 * m, hole.y - 0.2 * m}, {0.16 * m, top - 0.2 * m}, at));
    for (const double side : {-1.0, 1.0})
      easel.line(curve(at, {at.x + side * 0.05 * m, at.y - 0.2 * m}, {at.x + side * 0.2 * m, at.y - 0.55 * m},
                       {at.x, at.y - 0.55 * m}));
    easel.paper(arc(at, bead, bead, 0, 360), accent_tint);
  };
  return {{threading, 2.4}, {hanging}};
}

std::vector<Panel> finishing(const Subject& subject, const DrawnLeaf& leaf) {
  const double m = leaf.measure();
  const auto glitter = [&, m](Easel& easel) {
    const Standing s = draw_standing(easel, whole_of(subject), leaf);
    if (subject.views)
      draw_grains(easel, subject.views->whole, 0.15 * leaf.width, 0.06 * m, 0.007 * m);
    const Held brush{{0.3 * s.right, 0.4 * s.top + 0.6 * s.bottom}, 335, 0.75 * m};
    draw_brush(easel, brush);
    easel.tag(Part::glitter_brush, brush.at(0.7), 3, 6);
    easel.tag(Part::open_edge, {0.6 * s.right, 0.15 * s.top + 0.85 * s.bottom}, 0.6 * s.right * easel.scale(), 5);
  };
  const auto sealer = [&, m](Easel& easel) {
    const Standing s = draw_standing(easel, whole_of(subject), leaf);
    const drawing::Point can{s.right + 0.55 * m, 0.25 * s.top + 0.75 * s.bottom};
    draw_spray(easel, can, 0.62 * m);
    easel.tag(Part::spray, {can.x, can.y - 0.06 * m}, 8, 4);
    const double y = can.y + 0.09 * m;
    easel.arrow({{s.right, y}, {can.x - 0.05 * m, y}}, true);
    easel.figures("20–30 cm", {(s.right + can.x) / 2, y + 2.6 / easel.scale()}, 2.7); // common practice, no source
  };
  std::vector<Panel> panels;
  if (subject.design->making.glitter)
    panels.push_back({glitter});
  if (subject.design->making.sealer || panels.empty())
    panels.push_back({sealer});
  return panels;
}

std::vector<Panel> storing(const DrawnLeaf& leaf) {
  const auto sleeve = [&](Easel& easel) {
    const double m = leaf.measure(), over = 0.08 * m, w = leaf.width + 2 * over, h = leaf.height() + 2 * over;
    // Card and block half drawn into the sleeve, which is clear.
    const double out = 0.45 * h;
    const auto rect = [](double left, double top, double right, double bottom) {
      return Shape{{left, top}, {right, top}, {right, bottom}, {left, bottom}};
    };
    easel.paper(rect(-over, -h + over - out, w - over, over - out), pale);
    for (int k = 5; k >= 0; --k)
      draw_half(easel, leaf, flat_pose(false, {0.006 * m * k, leaf.bottom - out - 0.006 * m * k}), white,
                k == 0 ? Stroke{} : thin_line);
    const double edge = 0.03 * m;
    easel.line(rect(-over - edge, -h + over, w - over + edge, over + edge), {}, true);
    easel.arrow({{leaf.width / 2, -out - 0.5 * h}, {leaf.width / 2, -out - 0.15 * h}});
    easel.tag(Part::stiff_card, {w - over, -h + over - out + 0.1 * m}, 5, -2);
    easel.tag(Part::sleeve, {w - over + edge, -0.05 * m}, 5, -4);
  };
  const auto sun = [&](Easel& easel) {
    draw_no_sun(easel, {0, 0}, 0.24 * leaf.measure());
    easel.tag(Part::sun, {0.1 * leaf.measure(), 0.1 * leaf.measure()}, 7, 6);
  };
  return {{sleeve}, {sun}};
}

} // namespace fanwright::booklet
