#include "drawing/words.h"
#include "kit/stencil_page.h"
#include "leaf/contour.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fanwright::kit {

namespace {

using drawing::Align;
using drawing::Page;
using drawing::Step;
using drawing::Text;

constexpr double tick_mm = 1.4, tick_gap_mm = 0.7;
constexpr double arrow_head_mm = 2.0;
constexpr double foot_arrow_low_mm = 7, foot_arrow_mm = 14; // above the foot
constexpr double foot_arrow_top_mm = foot_arrow_low_mm + foot_arrow_mm + 2;
constexpr double words_left_mm = 11; // clear of the arrow to the fold
constexpr double hatch_spacing_mm = 1.2;
constexpr double thin_line_mm = 0.13;
constexpr double chord_mm = 0.05; // of hatched areas and of the leaf's outline, which are only looked at

/// From the right half's coordinates (z up) to the page (y down).
struct OnPage {
  drawing::Point head_corner;
  double head_z;

  drawing::Point operator()(const leaf::Point& p) const { return {head_corner.x + p.x, head_corner.y + head_z - p.z}; }
};

/// A contour of lines and arcs, all a stencil has.
drawing::Path cut_path(const leaf::Contour& contour, const OnPage& place) {
  drawing::Path path{Step::cut, {drawing::Move{place(contour.start)}}, drawing::usual_pen(Step::cut)};
  for (const leaf::Segment& segment : contour.segments)
    if (const auto* arc = std::get_if<leaf::Arc>(&segment)) // turning z up into y down mirrors, so the sweep changes
      path.segments.push_back(drawing::Arc{arc->radius_x, arc->radius_z, 0, arc->large, !arc->sweep, place(arc->to)});
    else
      path.segments.push_back(drawing::Line{place(leaf::end_of(segment))});
  path.segments.push_back(drawing::Close{});
  return path;
}

std::vector<drawing::Point> flattened(const leaf::Contour& contour, const OnPage& place) {
  std::vector<drawing::Point> points;
  for (const leaf::Point& point : leaf::flatten(contour, chord_mm))
    points.push_back(place(point));
  return points;
}

/// Ticks above and below the window at each dab.
void add_ticks(Page& page, const StencilWindow& window, const OnPage& place) {
  drawing::Path ticks{Step::legend, {}, {thin_line_mm, {}, false}};
  for (const leaf::Point& dab : window.dabs)
    for (const double way : {1.0, -1.0}) {
      const double near = dab.z + way * (window.radius_mm + tick_gap_mm);
      ticks.segments.push_back(drawing::Move{place({dab.x, near})});
      ticks.segments.push_back(drawing::Line{place({dab.x, near + way * tick_mm})});
    }
  if (!ticks.segments.empty())
    page.items.push_back(ticks);
}

/// A straight arrow along x or y.
void add_arrow(Page& page, const drawing::Point& from, const drawing::Point& tip) {
  const double length = std::hypot(tip.x - from.x, tip.y - from.y);
  const double x = (tip.x - from.x) / length, y = (tip.y - from.y) / length, half = arrow_head_mm / 2;
  const drawing::Point back{tip.x - x * arrow_head_mm, tip.y - y * arrow_head_mm};
  page.items.push_back(drawing::polyline(Step::legend, {from, tip}, false));
  page.items.push_back(drawing::polyline(
      Step::legend, {{back.x - y * half, back.y + x * half}, tip, {back.x + y * half, back.y - x * half}}, false));
}

/// An arrow in the grip that points to the foot.
void add_foot(Page& page, const Stencil& stencil, const OnPage& place) {
  const double x = stencil.width_mm - 5, height = stencil.head_z - stencil.foot_z;
  const double length = std::min(foot_arrow_mm, height / 5);
  add_arrow(page, place({x, stencil.foot_z + foot_arrow_low_mm + length}),
            place({x, stencil.foot_z + foot_arrow_low_mm}));
  page.items.push_back(Text{Step::legend, place({x, stencil.foot_z + 3.2}), 2.8, "foot", Align::centre, false});
}

struct Band {
  double low, high; ///< z, mm
};

/// The tallest stretch of the card without windows and ticks.
Band free_band(const Stencil& stencil) {
  std::vector<Band> taken;
  for (const StencilWindow& window : stencil.windows) {
    const double reach = window.radius_mm + tick_gap_mm + tick_mm;
    taken.push_back({std::min(window.from.z, window.to.z) - reach, std::max(window.from.z, window.to.z) + reach});
  }
  std::sort(taken.begin(), taken.end(), [](const Band& a, const Band& b) { return a.low < b.low; });
  taken.push_back({stencil.head_z, stencil.head_z});
  Band best{stencil.foot_z, stencil.foot_z};
  double low = stencil.foot_z;
  for (const Band& band : taken) {
    if (band.low - low > best.high - best.low)
      best = {low, band.low};
    low = std::max(low, band.high);
  }
  return best;
}

/// Where the words stand, leaf coordinates, mm.
struct WordsBox {
  double left, right, low, high;
  bool holds(const leaf::Point& p) const { return p.x > left && p.x < right && p.z > low && p.z < high; }
};

struct CardLine {
  double size_mm;
  bool bold;
  std::string words;
};

std::vector<CardLine> card_lines(const Stencil& stencil, const StencilLook& look) {
  const bool inside = stencil.side == design::Side::inside;
  const bool dabs = stencil.glue == GlueGiven::dabs;
  return {{3.4, true, look.name},
          {4.4, true, inside ? "INSIDE rows" : "BETWEEN rows"},
          {2.7, false, inside ? "this edge in the fold" : "this edge along the fold"},
          {2.7, false, "this side up"},
          {2.7, false, dabs ? "a dab at each tick" : "a bead from end to end"}};
}

/// Whose card it is, which rows, and how it lies.
WordsBox add_words(Page& page, const Stencil& stencil, const StencilLook& look, const OnPage& place) {
  constexpr double leading = 1.35, air_mm = 2, least_scale = 0.3, edge_mm = 3, grip_of_foot_mm = 12;
  const std::vector<CardLine> lines = card_lines(stencil, look);
  const Band band = free_band(stencil);
  const double height = leading * std::accumulate(lines.begin(), lines.end(), 0.0,
                                                  [](double sum, const CardLine& line) { return sum + line.size_mm; });
  const double scale = std::clamp((band.high - band.low - air_mm) / height, least_scale, 1.0);
  const bool beside_foot = band.low < stencil.foot_z + foot_arrow_top_mm;
  const double room = stencil.width_mm - words_left_mm - (beside_foot ? grip_of_foot_mm : edge_mm);
  const double middle = (band.low + band.high) / 2;
  WordsBox box{words_left_mm - 1, words_left_mm, middle - scale * height / 2 - 0.5, middle + scale * height / 2 + 0.5};
  double z = middle + scale * height / 2;
  for (const CardLine& line : lines) {
    z -= scale * leading * line.size_mm;
    const double wide = drawing::words_width_mm(line.words, scale * line.size_mm, line.bold);
    const double fitted = std::min(1.0, room / std::max(wide, 1.0));
    page.items.push_back(Text{Step::legend, place({words_left_mm, z + 0.3 * scale * line.size_mm}),
                              fitted * scale * line.size_mm, line.words, Align::left, line.bold});
    box.right = std::max(box.right, words_left_mm + fitted * wide + 1);
  }
  add_arrow(page, place({words_left_mm - 2.5, middle}), place({1.2, middle}));
  return box;
}

/// Where the half lies underneath: its outer edge, dotted, with a gap for the words.
void add_half(Page& page, const leaf::Leaf& leaf, const WordsBox& words, const OnPage& place) {
  const leaf::Ring ring = leaf::flatten(leaf.outline, chord_mm);
  drawing::Path path{Step::legend, {}, {thin_line_mm, {0.6, 1.2}, false}};
  bool drawing_on = false;
  const auto go = [&](const leaf::Point& p) {
    if (words.holds(p)) {
      drawing_on = false;
      return;
    }
    if (drawing_on)
      path.segments.push_back(drawing::Line{place(p)});
    else
      path.segments.push_back(drawing::Move{place(p)});
    drawing_on = true;
  };
  go(ring.front());
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) { // the last stretch runs along the spine, the card's own edge
    const leaf::Point a = ring[i], b = ring[i + 1];
    const int steps = 1 + static_cast<int>(std::hypot(b.x - a.x, b.z - a.z));
    for (int k = 1; k <= steps; ++k)
      go({a.x + (b.x - a.x) * k / steps, a.z + (b.z - a.z) * k / steps});
  }
  page.items.push_back(path);
}

} // namespace

void add_stencil(Page& page, const leaf::Leaf& leaf, const Stencil& stencil, const StencilLook& look,
                 const drawing::Point& head_corner) {
  const OnPage place{head_corner, stencil.head_z};
  std::vector<const StencilWindow*> order;
  for (const StencilWindow& window : stencil.windows)
    order.push_back(&window);
  const auto length = [](const StencilWindow* w) { return std::hypot(w->to.x - w->from.x, w->to.z - w->from.z); };
  std::stable_sort(order.begin(), order.end(),
                   [&](const auto* a, const auto* b) { return length(a) < length(b) - 1e-6; });
  for (const StencilWindow* window : order) {
    page.items.push_back(cut_path(cut_line(*window), place));
    if (look.windows_hatched)
      page.items.push_back(drawing::hatched(Step::legend, flattened(cut_line(*window), place), 45, hatch_spacing_mm));
    add_ticks(page, *window, place);
  }
  page.items.push_back(cut_path(stencil.card, place));
  add_half(page, leaf, add_words(page, stencil, look, place), place);
  add_foot(page, stencil, place);
}

} // namespace fanwright::kit
