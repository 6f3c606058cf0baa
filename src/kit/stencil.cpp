#include "kit/stencil.h"

#include "leaf/contour.h"
#include "leaf/sentence.h"
#include "making/making.h"
#include "making/times.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fanwright::kit {

namespace {

using leaf::Point;

// All common practice, no source, unless a reason is given.
constexpr double narrowest_window_mm = 1.0; ///< a knife still clears it, and the tip can be seen in it
constexpr double longest_window_mm = 40.0;  ///< card sags beside longer ones
constexpr double longest_to_card_left = 10; ///< a window's length, in widths of the card left beside it
constexpr double dab_pitch_in_beads = 4.0;  ///< from dab to dab: half as much again as their discs are wide
constexpr double grip_mm = 10.0;            ///< card beyond the half's outer edge, to be held
constexpr double narrowest_card_mm = 40.0;  ///< held flat with two fingers, and room for its name
constexpr double largest_notch_mm = 3.0;    ///< felt with a finger tip; no corner for a tear to start
constexpr double bead_step_mm = 0.1;        ///< of the advice on a thinner bead

/// A row as a window sees it: its centre line and its width across that line.
struct Track {
  Point from;
  double slope;    ///< dz / dx
  double width_mm; ///< less than the row's own, which is measured along z

  explicit Track(const leaf::GlueRow& row)
      : from(row.from), slope((row.to.z - row.from.z) / (row.to.x - row.from.x)),
        width_mm(row.width_mm / std::hypot(1.0, slope)) {}
  Point at_x(double x) const { return {x, from.z + (x - from.x) * slope}; }
};

/// What the windows of one card have in common.
struct Rules {
  double spread_mm;       ///< kept from the row's edges
  double least_radius_mm; ///< of a window
  double card_mm;         ///< kept between windows and from the card's edges
  double foot_z, head_z;
};

/// Width a window may have in a row `row_mm` wide; the glue must pass through it, too.
double window_width(GlueGiven glue, double bead_mm, double row_mm) {
  const double width = std::min(row_mm, row_mm - 2 * spread_beyond_mm(glue, bead_mm));
  return width >= std::max(narrowest_window_mm, bead_mm) ? width : 0;
}

/// The uncut window of a whole row; empty when there is no room for one.
std::optional<StencilWindow> whole_window(const leaf::GlueRow& row, std::size_t index, const Rules& rules) {
  const Track track(row);
  const double lowest = std::min(row.from.z, row.to.z), highest = std::max(row.from.z, row.to.z);
  const double inset = std::max(0.0, rules.spread_mm);
  // The ends of a strip run along the spine, so what is left of its length is measured along x.
  const double start = std::max(row.from.x + inset, rules.card_mm), end = row.to.x - inset;
  const double radius = std::min({track.width_mm / 2 - inset, (end - start) / 2, lowest - rules.foot_z - rules.card_mm,
                                  rules.head_z - highest - rules.card_mm});
  if (radius < rules.least_radius_mm)
    return std::nullopt;
  return StencilWindow{index, track.at_x(start + radius), track.at_x(end - radius), radius, {}};
}

double distance(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x, dz = b.z - a.z, length2 = dx * dx + dz * dz;
  const double along = length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / length2, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - along * dx, p.z - a.z - along * dz);
}

/// Card between two windows, mm. Rows never cross, so one of the four ends is nearest.
double card_between(const StencilWindow& a, const StencilWindow& b) {
  const double centres = std::min({distance(a.from, b.from, b.to), distance(a.to, b.from, b.to),
                                   distance(b.from, a.from, a.to), distance(b.to, a.from, a.to)});
  return centres - a.radius_mm - b.radius_mm;
}

double length_of(const StencilWindow& window) {
  return std::hypot(window.to.x - window.from.x, window.to.z - window.from.z);
}

/// Narrows windows that stand too near to each other, both alike; of two that would become too narrow the shorter goes.
std::vector<StencilWindow> kept_apart(std::vector<StencilWindow> windows, const Rules& rules) {
  std::vector<StencilWindow> kept;
  for (StencilWindow& window : windows) {
    bool room = true;
    for (auto other = kept.begin(); room && other != kept.end();) {
      const double missing = rules.card_mm - card_between(window, *other);
      const double narrowest = std::min(window.radius_mm, other->radius_mm) - missing / 2;
      if (missing > 0 && narrowest >= rules.least_radius_mm) {
        window.radius_mm -= missing / 2;
        other->radius_mm -= missing / 2;
      } else if (missing > 0 && length_of(window) > length_of(*other)) {
        other = kept.erase(other);
        continue;
      } else if (missing > 0) {
        room = false;
      }
      ++other;
    }
    if (room)
      kept.push_back(window);
  }
  return kept;
}

/// Least card beside the window's long sides, mm.
double card_beside(const StencilWindow& window, const std::vector<StencilWindow>& all, const Rules& rules) {
  const double lowest = std::min(window.from.z, window.to.z), highest = std::max(window.from.z, window.to.z);
  double least = std::min(lowest - rules.foot_z, rules.head_z - highest) - window.radius_mm;
  for (const StencilWindow& other : all)
    if (other.row != window.row)
      least = std::min(least, card_between(window, other));
  return least;
}

/// Pieces of equal length with bridges between them.
std::vector<StencilWindow> bridged(const StencilWindow& window, double card_beside_mm, double bridge_mm) {
  // At least four widths long, so that a piece never is shorter than it is wide.
  const double longest =
      std::max(std::min(longest_window_mm, longest_to_card_left * card_beside_mm), 8 * window.radius_mm + bridge_mm);
  const double ends = 2 * window.radius_mm, whole = length_of(window) + ends;
  const int count = static_cast<int>(std::ceil((whole + bridge_mm) / (longest + bridge_mm)));
  const double piece = (whole - (count - 1) * bridge_mm) / count;
  const auto along = [&](double mm) {
    const double share = whole > ends ? mm / (whole - ends) : 0;
    return Point{window.from.x + share * (window.to.x - window.from.x),
                 window.from.z + share * (window.to.z - window.from.z)};
  };
  std::vector<StencilWindow> pieces;
  for (int i = 0; i < count; ++i) {
    const double begin = i * (piece + bridge_mm);
    pieces.push_back({window.row, along(begin), along(begin + piece - ends), window.radius_mm, {}});
  }
  return pieces;
}

void set_dabs(StencilWindow& window, double bead_mm) {
  const int gaps = static_cast<int>(length_of(window) / dab_pitch_mm(bead_mm));
  for (int i = 0; i <= gaps; ++i) {
    const double share = gaps > 0 ? static_cast<double>(i) / gaps : 0.5;
    window.dabs.push_back(
        {window.from.x + share * (window.to.x - window.from.x), window.from.z + share * (window.to.z - window.from.z)});
  }
}

/// Straight along spine, foot and head, where it is pushed against leaf and stop; rounded at the outer corners.
void shape_card(Stencil& result, const leaf::Box& half) {
  result.width_mm = std::max(half.right + grip_mm, narrowest_card_mm);
  result.foot_z = half.bottom;
  result.head_z = half.top;
  const double r = std::min(largest_notch_mm, half.height() / 16), right = result.width_mm;
  result.notch_radius_mm = r;
  for (int i = 0; i < (result.side == design::Side::inside ? 1 : 2); ++i)
    result.notches.push_back({right, half.top - (4 + 3.5 * i) * r});
  const auto arc = [r](bool counter_clockwise, Point to) { return leaf::Arc{r, r, 0, false, counter_clockwise, to}; };
  auto& segments = result.card.segments;
  result.card.start = {0, half.bottom};
  segments.push_back(leaf::Line{{right - r, half.bottom}});
  segments.push_back(arc(true, {right, half.bottom + r}));
  for (auto notch = result.notches.rbegin(); notch != result.notches.rend(); ++notch) {
    segments.push_back(leaf::Line{{right, notch->z - r}});
    segments.push_back(arc(false, {right, notch->z + r}));
  }
  segments.push_back(leaf::Line{{right, half.top - r}});
  segments.push_back(arc(true, {right - r, half.top}));
  segments.push_back(leaf::Line{{0, half.top}});
  segments.push_back(leaf::Line{{0, half.bottom}});
}

/// A bead where every row is wide enough for it, otherwise dabs.
GlueGiven glue_for(const std::vector<leaf::GlueRow>& rows, design::Side side, double bead_mm) {
  const bool bead = std::all_of(rows.begin(), rows.end(), [&](const leaf::GlueRow& row) {
    return row.side != side || window_width(GlueGiven::bead, bead_mm, Track(row).width_mm) > 0;
  });
  return bead ? GlueGiven::bead : GlueGiven::dabs;
}

std::string side_name(design::Side side) { return side == design::Side::inside ? "inside" : "between"; }

std::string refusal(const leaf::Leaf& leaf, design::Side side, double bead_mm) {
  double widest = 0;
  for (const leaf::GlueRow& row : leaf.rows)
    if (row.side == side)
      widest = std::max(widest, Track(row).width_mm);
  const std::string start = "There is no stencil for the " + side_name(side) + " rows: ";
  if (widest == 0)
    return start + "the leaf has none.";
  if (window_width(GlueGiven::dabs, bead_mm, widest) > 0)
    return start + "each of them is too short, or too near to spine, foot or top, for a window in the card; make the "
                   "rows longer or their gaps wider.";
  const double disc = bead_mm + 2 * spread_beyond_mm(GlueGiven::dabs, bead_mm);
  const std::string why = start + "a dab of a " + leaf::in_mm(bead_mm) + " bead is pressed out to " +
                          leaf::in_mm(disc) + ", and the widest of these rows measures " + leaf::in_mm(widest) +
                          " across; ";
  for (double bead = std::floor(bead_mm / bead_step_mm) * bead_step_mm; bead > bead_step_mm / 2; bead -= bead_step_mm)
    if (window_width(GlueGiven::dabs, bead, widest) > 0)
      return why + "use a tip that gives a bead of " + leaf::in_mm(bead) + " (\"bead\" in \"making\"), or wider rows.";
  return why + "make the rows wider.";
}

} // namespace

double least_card_mm(design::Cutting cutting) { return cutting == design::Cutting::by_hand ? 2.0 : 1.5; }

double spread_beyond_mm(GlueGiven glue, double bead_mm) {
  const double film = making::pressed_film_mm;
  const double pressed = glue == GlueGiven::bead ? making::pressed_width_mm(bead_mm, film)
                                                 : std::sqrt(bead_mm * bead_mm * bead_mm / (3 * film));
  return (pressed - bead_mm) / 2;
}

double dab_pitch_mm(double bead_mm) { return dab_pitch_in_beads * bead_mm; }

leaf::Contour cut_line(const StencilWindow& window) {
  const double r = window.radius_mm, length = length_of(window);
  const double along_x = length > 0 ? (window.to.x - window.from.x) / length : 1;
  const double along_z = length > 0 ? (window.to.z - window.from.z) / length : 0;
  const auto beside = [&](const Point& p, double side) {
    return Point{p.x - side * r * along_z, p.z + side * r * along_x};
  };
  leaf::Contour contour{beside(window.from, 1), {}};
  if (length > 0)
    contour.segments.push_back(leaf::Line{beside(window.to, 1)});
  contour.segments.push_back(leaf::Arc{r, r, 0, false, false, beside(window.to, -1)});
  if (length > 0)
    contour.segments.push_back(leaf::Line{beside(window.from, -1)});
  contour.segments.push_back(leaf::Arc{r, r, 0, false, false, contour.start});
  return contour;
}

std::variant<Stencil, std::string> stencil(const leaf::Leaf& leaf, design::Side side, const design::Making& making) {
  Stencil result;
  result.side = side;
  result.glue = glue_for(leaf.rows, side, making.bead_mm);
  result.spread_mm = spread_beyond_mm(result.glue, making.bead_mm);
  shape_card(result, leaf::bounds(leaf.outline));
  const Rules rules{result.spread_mm, std::max(narrowest_window_mm, making.bead_mm) / 2, least_card_mm(making.cutting),
                    result.foot_z, result.head_z};
  std::vector<StencilWindow> whole;
  for (std::size_t i = 0; i < leaf.rows.size(); ++i)
    if (leaf.rows[i].side == side)
      if (const auto window = whole_window(leaf.rows[i], i, rules))
        whole.push_back(*window);
  whole = kept_apart(std::move(whole), rules);
  if (whole.empty())
    return refusal(leaf, side, making.bead_mm);
  for (const StencilWindow& window : whole)
    for (StencilWindow& piece : bridged(window, card_beside(window, whole, rules), rules.card_mm)) {
      if (result.glue == GlueGiven::dabs)
        set_dabs(piece, making.bead_mm);
      result.windows.push_back(std::move(piece));
    }
  for (std::size_t i = 0; i < leaf.rows.size(); ++i)
    if (leaf.rows[i].side == side &&
        std::none_of(whole.begin(), whole.end(), [i](const StencilWindow& window) { return window.row == i; }))
      result.rows_by_eye.push_back(i);
  return result;
}

} // namespace fanwright::kit
