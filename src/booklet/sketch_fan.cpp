// Fans: their strip scored and pleated, then spread.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::booklet {
namespace {

constexpr int panels_drawn = 8; // of a strip's beginning
const Stroke mountain_line{main_mm, ink, {3.0, 0.8, 0.4, 0.8}};

/// The whole strip as one piece of paper.
fan::StripPart whole_strip(const fan::SizedFan& fan) {
  constexpr double no_limit_mm = 1e6;
  return std::get<std::vector<fan::StripPart>>(fan::parts(fan.made.strip, no_limit_mm)).front();
}

/// The ring's part left of `x` (Sutherland and Hodgman's clipping on one side).
leaf::Ring left_of(const leaf::Ring& ring, double x) {
  leaf::Ring kept;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const leaf::Point a = ring[k], b = ring[(k + 1) % ring.size()];
    if (a.x <= x)
      kept.push_back(a);
    if ((a.x <= x) != (b.x <= x))
      kept.push_back(fan::at_x(a, b, x));
  }
  return kept;
}

/// Height of the paper at each crease of the strip's beginning; of the first side, where it has no score, its edge's.
std::vector<double> heights_at_creases(const fan::SizedFan& fan, const fan::StripPart& strip, int count) {
  std::vector<double> heights(static_cast<std::size_t>(count) + 1, fan.made.strip.edge.front().front().z);
  if (count >= fan.made.strip.panels)
    heights.back() = fan.made.strip.edge.back().back().z;
  for (const fan::Score& score : strip.scores)
    if (score.crease <= count)
      heights[static_cast<std::size_t>(score.crease)] = score.to.z;
  return heights;
}

void draw_flat_strip(Easel& easel, const fan::SizedFan& fan, int count) {
  const fan::StripPart strip = whole_strip(fan);
  const double depth = fan.made.strip.depth_mm, end = depth * count - 0.5 * depth;
  const auto on_page = flat_pose();
  easel.paper(posed(left_of(leaf::flatten(strip.cut, 0.1), end), on_page));
  const auto heights = heights_at_creases(fan, strip, count);
  for (const fan::Score& score : strip.scores)
    if (score.from.x < end)
      easel.line({on_page(score.from), on_page(score.to)},
                 score.fold == fan::Fold::mountain ? mountain_line : score_line);
  const auto at = [&](double x, double z) { return on_page({x, z}); };
  easel.tag(Part::mountain, at(depth, heights[1] * 0.8), -1, -9);
  easel.tag(Part::valley, at(2 * depth, heights[2] * 0.8), 3, -9);
  if (fan.made.strip.flap_mm > 0)
    easel.tag(Part::flap, at(-fan.made.strip.flap_mm / 2, heights[0] / 2), -7, 4);
  easel.tag(Part::gathered_end, at(3.5 * depth, 0), 2, 5);
}

/// The strip half folded, its gathered end down, its front to the viewer.
void draw_pleats(Easel& easel, const fan::SizedFan& fan, int count) {
  constexpr double folded_deg = 52;
  const Viewer viewer{-14, 34};
  const fan::StripPart strip = whole_strip(fan);
  const auto heights = heights_at_creases(fan, strip, count);
  const double step = fan.made.strip.depth_mm * std::cos(folded_deg * std::numbers::pi / 180),
               out = fan.made.strip.depth_mm * std::sin(folded_deg * std::numbers::pi / 180);
  // Mountains stand nearer to the viewer.
  const auto at = [&](int crease, double z) { return viewer.at(crease * step, crease % 2 == 1 ? 0 : out, z); };
  for (int k = 0; k < count; ++k) {
    const double here = heights[static_cast<std::size_t>(k)], next = heights[static_cast<std::size_t>(k) + 1];
    easel.paper({at(k, 0), at(k + 1, 0), at(k + 1, next), at(k, here)}, k % 2 == 0 ? white : pale);
  }
  const double middle = heights[static_cast<std::size_t>(count / 2)] / 2;
  easel.arrow({at(count + 2, middle), at(count, middle)});
  easel.arrow({at(-2, middle), at(0, middle)});
}

/// Where a place of the spread fan is seen: its front to the viewer, a little from the left and above.
drawing::Point seen(const fan::Point3& place) {
  constexpr Viewer viewer{-16, 12};
  return viewer.at(place[0], -place[2], place[1]);
}

/// Outline of a spread fan: its cut edge, and back along the gathered end.
template <typename Seen> Shape outline_of(const fan::Strip& strip, const fan::Spread& spread, const Seen& seen_at) {
  Shape ring;
  for (const auto& run : strip.edge)
    for (const leaf::Point& point : run)
      ring.push_back(seen_at(spread.place(point)));
  for (int k = spread.pleats().panels; k >= 0; --k)
    ring.push_back(seen_at(spread.crease(k, 0)));
  return ring;
}

/// A fan in the round, its creases up to the cut edge.
template <typename Seen> void draw_placed(Easel& easel, const fan::Placed& placed, const Seen& seen_at) {
  const auto on_page = [&](const fan::Point3& place) { return seen_at(placed.at.in_the_round(place)); };
  const Shape ring = outline_of(placed.strip, placed.spread, on_page);
  easel.paper(ring);
  leaf::Ring flat = {{placed.strip.length_mm(), 0}, {0, 0}};
  for (const auto& run : placed.strip.edge)
    flat.insert(flat.end(), run.begin(), run.end());
  for (int k = 1; k < placed.strip.panels; ++k) {
    const double top = fan::paper_at(flat, k * placed.strip.depth_mm)[1];
    easel.line({on_page(placed.spread.crease(k, 0)), on_page(placed.spread.crease(k, top))},
               k % 2 == 1 ? thin_line : grey_line);
  }
}

void draw_spread_fan(Easel& easel, const fan::SizedFan& fan, const fan::Spread& spread) {
  easel.paper(outline_of(fan.made.strip, spread, seen));
  for (const fan::Score& score : whole_strip(fan).scores) {
    Shape crease;
    for (int k = 0; k <= 8; ++k)
      crease.push_back(seen(spread.crease(score.crease, score.from.z + (score.to.z - score.from.z) * k / 8)));
    easel.line(crease, score.fold == fan::Fold::mountain ? Stroke{} : grey_line);
  }
}

Shape turning_arrow(const fan::Spread& spread, double radius, double from_deg, double to_deg) {
  Shape path;
  for (int k = 0; k <= 24; ++k) {
    const double azimuth = (from_deg + (to_deg - from_deg) * k / 24) * std::numbers::pi / 180;
    path.push_back(seen({radius * std::cos(azimuth), radius * std::sin(azimuth), spread.pleats().depth_mm}));
  }
  return path;
}

void draw_spreading(Easel& easel, const fan::SizedFan& fan) {
  const fan::Spread& whole = fan.made.spread;
  draw_spread_fan(easel, fan, whole);
  const double reach = 1.12 * whole.outer_radius_mm(), first = whole.first_side_deg(), last = whole.last_side_deg();
  const double turn = std::min(whole.spread_deg(), 300.0);
  easel.arrow(turning_arrow(whole, reach, first - 0.25 * turn, first - 0.85 * turn));
  const auto& edge = fan.made.strip.edge;
  const double from = 0.6 * edge.front().front().z, to = 0.6 * edge.back().back().z;
  const auto side = [&](double azimuth_deg, double v, double dx, Part part, int crease) {
    const double sideways = std::cos(azimuth_deg * std::numbers::pi / 180);
    easel.tag(part, seen(whole.crease(crease, v)), sideways < 0 ? -std::abs(dx) : std::abs(dx), 5);
  };
  if (fan::is_disc(whole)) {
    easel.tag(Part::flap, seen(whole.crease(0, from)), 0, 0);
  } else {
    side(first, from, 7, Part::flap, 0);
    side(last, to, 7, Part::last_pleat, whole.pleats().panels);
  }
  easel.tag(Part::gathered_end, seen({0, 0, 0}), 0, fan::is_disc(whole) ? 0 : 7);
}

/// The ornament's outline from the front, its fans in their seats on it; those that sit behind its middle are drawn
/// first.
void draw_seated(Easel& easel, const fan::SizedFan& fan, const fan::Seated& seated, const opened::Form& form) {
  const auto from_front = [&](const fan::Point3& place) {
    return drawing::Point{-(place[0] * seated.right[0] + place[1] * seated.right[1]), -place[2]};
  };
  const auto to_the_front = [&](const fan::Placed& placed) {
    return placed.at.origin[1] * seated.right[0] - placed.at.origin[0] * seated.right[1];
  };
  const auto draw_fans = [&](bool behind) {
    for (const fan::Placed& placed : seated.fans)
      if ((to_the_front(placed) < 0) == behind)
        draw_placed(easel, placed, from_front);
  };
  draw_fans(true);
  Shape outline;
  for (const opened::EdgePoint& point : form.edge)
    outline.push_back({point.radius, -point.height});
  for (auto point = form.edge.rbegin(); point != form.edge.rend(); ++point)
    outline.push_back({-point->radius, -point->height});
  easel.paper(outline);
  draw_fans(false);
  const drawing::Point seat = from_front(seated.fans.front().at.origin);
  const double from = seat.y - fan.seat->below_neck_mm;
  easel.line({{-1.1 * form.diameter_mm / 2, from}, {1.1 * form.diameter_mm / 2, from}}, hidden_line);
  easel.arrow({{0.9 * form.diameter_mm / 2, from}, {0.9 * form.diameter_mm / 2, seat.y}}, true);
  easel.tag(Part::seat, seat, -6, 6);
}

} // namespace

std::vector<Panel> fan_pleating(const fan::SizedFan& fan) {
  const int count = std::min(panels_drawn, fan.made.strip.panels);
  return {{[&fan, count](Easel& easel) { draw_flat_strip(easel, fan, count); }},
          {[&fan, count](Easel& easel) { draw_pleats(easel, fan, count); }}};
}

std::vector<Panel> fan_spreading(const Subject& subject) {
  const fan::SizedFan& fan = *subject.fan;
  std::vector<Panel> panels = {{[&fan](Easel& easel) { draw_spreading(easel, fan); }}};
  if (subject.seated != nullptr)
    panels.push_back({[&subject](Easel& easel) { draw_seated(easel, *subject.fan, *subject.seated, *subject.form); }});
  return panels;
}

} // namespace fanwright::booklet
