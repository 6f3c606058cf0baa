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

void dots_along(Easel& easel, const Shape& edge, double from_share, double to_share, double radius) {
  const std::size_t count = edge.size();
  for (std::size_t k = 0; k < count; ++k) {
    const double share = static_cast<double>(k) / static_cast<double>(count);
    if (share >= from_share && share <= to_share)
      easel.fill(arc(edge[k], radius, radius, 0, 360), accent);
  }
}

/// The half's edge as points at even distances.
Shape evenly(const Shape& shape, double step) {
  Shape even;
  double left_over = 0;
  for (std::size_t k = 0; k + 1 < shape.size(); ++k) {
    const double dx = shape[k + 1].x - shape[k].x, dy = shape[k + 1].y - shape[k].y, length = std::hypot(dx, dy);
    double at = left_over;
    for (; at < length; at += step)
      even.push_back({shape[k].x + dx * at / length, shape[k].y + dy * at / length});
    left_over = at - length;
  }
  return even;
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
    const double m = leaf.measure(), z = leaf.spine_top - 0.06 * m, bead = 0.03 * m;
    draw_half(easel, leaf, flat_pose(), pale);
    easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, bold_line);
    const drawing::Point hole{0.035 * m, -z};
    easel.fill(arc(hole, 0.012 * m, 0.012 * m, 0, 360), ink);
    easel.line(curve(hole, {hole.x + 0.08 * m, -z - 0.12 * m}, {-0.02 * m, -z - 0.2 * m}, {-0.04 * m, -z - 0.34 * m}));
    easel.line(curve(hole, {-0.1 * m, -z}, {-0.1 * m, -z - 0.16 * m}, {-0.04 * m, -z - 0.34 * m}));
    easel.paper(arc({-0.04 * m, -z - 0.34 * m}, bead, bead, 0, 360), accent_tint);
  };
  return {{threading}, {hanging}};
}

std::vector<Panel> finishing(const Subject& subject, const DrawnLeaf& leaf) {
  std::vector<Panel> panels;
  if (subject.design->making.glitter)
    panels.push_back({[&](Easel& easel) {
      const double m = leaf.measure();
      const Standing s = draw_standing(easel, whole_of(subject), leaf);
      const double z = leaf.bottom + 0.55 * leaf.height(), x = reach_at(leaf, z);
      const Held brush{{x, leaf.spine_foot - z + (s.spine_top - leaf.spine_foot + leaf.spine_top) * 0.3}, 330, 0.6 * m};
      dots_along(easel, evenly(posed(leaf.half, flat_pose(false, {0, leaf.spine_foot})), 0.03 * m), 0.0, 0.6,
                 0.009 * m);
      draw_brush(easel, brush);
      easel.tag(Part::glitter_brush, brush.at(0.7), 3, 6);
    }});
  if (subject.design->making.sealer || panels.empty())
    panels.push_back({[&](Easel& easel) {
      const double m = leaf.measure();
      const Standing s = draw_standing(easel, whole_of(subject), leaf);
      draw_spray(easel, {s.right + 0.55 * m, s.bottom}, 0.7 * m);
      easel.tag(Part::spray, {s.right + 0.6 * m, s.bottom - 0.1 * m}, 8, 3);
    }});
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
  const auto sun = [&](Easel& easel) { draw_no_sun(easel, {0, 0}, 0.24 * leaf.measure()); };
  return {{sleeve}, {sun}};
}

} // namespace fanwright::booklet
