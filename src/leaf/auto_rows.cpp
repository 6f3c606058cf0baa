#include "leaf/auto_rows.h"

#include "leaf/contour.h"
#include "leaf/even_rows.h"
#include "leaf/row_heights.h"
#include "leaf/sentence.h"
#include "leaf/tolerances.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

namespace fanwright::leaf {
namespace {

using design::Refusal;

// Common practice, no source, unless a reason is given.
constexpr double pressed_film_mm = 0.1;  ///< glue film between leaves in the press
constexpr double hand_mm = 0.5;          ///< a bead laid by hand wanders this much
constexpr double narrowest_row_mm = 2.0; ///< seen and hit without a lens
constexpr double squeeze_out_mm = 1.0;   ///< kept between pressed glue and fold or cut
constexpr double least_gap_mm = 2.0;     ///< clear paper between rows, that glue does not weld the cell shut
constexpr double good_lock = 0.7;        ///< opens well up to here, docs/model.md
constexpr double most_lock = 0.88;       ///< a little below 0.9, where the paper would have to stretch
constexpr double sure_lock = 0.45;       ///< advised where the leaf must still be derived from an opened outline
constexpr double easy_lock = 0.6;        ///< wide gaps are taken rather than more than this
/// Surface strain at a row's edge that card takes without breaking its face.
constexpr double most_surface_strain = 0.04;
/// Where an opened outline is drawn, the spine bows outward and leaves the end rows shorter by up to so much.
constexpr double bow_mm = 3.0;
constexpr double fewest_pitches = 4.0; ///< small ornaments get five rows all the same
constexpr double share_window = 0.5;   ///< of a pitch, either way: where a longer row counts as near by
constexpr double tip_drop_mm = 2.0;    ///< less is a bulge, which keeps its shape by itself
constexpr double place_step_mm = 0.5;
constexpr double most_places = 1000; ///< bounds the search on large leaves
constexpr int most_leaves = 400;

/// What a look asks for: q in the broad places, and how near and far apart rows may stand there.
struct LookRule {
  double lock, closest_mm, furthest_mm;
};

LookRule rule_of(design::Look look) {
  // Trade practice for card is 12 to 25 mm from row to row (common practice, no source).
  switch (look) {
  case design::Look::open:
    return {0.35, 15, 30};
  case design::Look::dense:
    return {0.57, 9, 20};
  case design::Look::usual:
    break;
  }
  return {0.45, 12, 25};
}

double half_mm_up(double length) { return std::ceil(2 * length - 1e-9) / 2; }

/// The wish with everything filled in.
struct Glue {
  double width_mm, spine_gap_mm, edge_gap_mm;
};

Glue glue_of(const design::AutoRows& wish, double bead_mm) {
  // A round bead pressed to a film: w = pi d^2 / (4 h).
  const double pressed = std::numbers::pi * bead_mm * bead_mm / (4 * pressed_film_mm);
  const double width = wish.width_mm.value_or(std::max(narrowest_row_mm, half_mm_up(pressed + hand_mm)));
  const double gap = half_mm_up(width / 2 + squeeze_out_mm);
  return {width, wish.spine_gap_mm.value_or(gap), wish.edge_gap_mm.value_or(gap)};
}

/// In the opened ornament a gap stands lower than its paper by up to 0.6 q^2 of it (docs/model.md), so the same look
/// has a larger ratio when measured there. Limits take no such credit: a short broad body may not sink as much.
double ratio_seen(double lock, bool is_opened) { return is_opened ? lock / (1 - 0.6 * lock * lock) : lock; }

double pitch_at(double reach, double span, const LookRule& rule, const Glue& glue, const RowCircumstances& around) {
  const double arc = around.wedge_rad * std::max(0.0, reach);
  // Clamped strip, free to shorten: surface strain t k / 2 with k = 6 D / s^2.
  const double bending = std::sqrt(3 * around.caliper_mm * arc / most_surface_strain);
  const double wanted = glue.width_mm + arc / ratio_seen(rule.lock * around.lock_share, around.is_opened);
  const double closest = std::min(rule.closest_mm, span / fewest_pitches);
  const double least = glue.width_mm + std::max(arc / easy_lock, bending);
  return std::max({std::min(wanted, rule.furthest_mm), closest, least, glue.width_mm + least_gap_mm});
}

/// Least and greatest z at which the end rows may lie.
struct Span {
  double low, high;
};

class Placing {
public:
  Placing(const design::AutoRows& wish, const Leaf& leaf, const RowCircumstances& around)
      : around_(around), rule_(rule_of(wish.look)), glue_(glue_of(wish, around.bead_mm)), reach_(reach_of(leaf)) {
    const double inset = glue_.edge_gap_mm + glue_.width_mm / 2;
    span_ = {leaf.spine_foot_z + inset, leaf.spine_top_z - inset};
  }

  const Glue& glue() const { return glue_; }
  double inner_end() const { return around_.hub_mm + glue_.spine_gap_mm; }

  /// All heights where a row could lie; empty when there are none.
  std::vector<RowPlace> places() const {
    std::vector<RowPlace> places;
    if (span_.low >= span_.high)
      return places;
    const double step = std::max(place_step_mm, (span_.high - span_.low) / most_places);
    const int steps = static_cast<int>(std::ceil((span_.high - span_.low) / step));
    for (int k = 0; k <= steps; ++k) {
      RowPlace place;
      place.z = span_.low + (span_.high - span_.low) * k / steps;
      place.reach = reach_.at(place.z, glue_.width_mm);
      place.fits = place.reach - inner_end() >= shortest_end_row_mm + (around_.is_opened ? bow_mm : 0);
      places.push_back(place);
    }
    drop_ends(places);
    for (RowPlace& place : places)
      place.pitch = pitch_at(place.reach, places.back().z - places.front().z, rule_, glue_, around_);
    return places;
  }

  std::optional<std::vector<int>> heights(const std::vector<RowPlace>& places, double lock) const {
    return row_heights(places, {glue_.width_mm, least_gap_mm, around_.wedge_rad, lock});
  }

private:
  Reach reach_of(const Leaf& leaf) const {
    std::vector<Ring> holes;
    for (const Contour& hole : leaf.cut_outs)
      holes.push_back(flatten(hole, flatten_tolerance_mm));
    return {flatten(leaf.outline, flatten_tolerance_mm), holes, glue_.edge_gap_mm};
  }

  static void drop_ends(std::vector<RowPlace>& places) {
    const auto fits = [](const RowPlace& place) { return place.fits; };
    const auto first = std::find_if(places.begin(), places.end(), fits);
    const auto last = std::find_if(places.rbegin(), places.rend(), fits).base();
    places = first < last ? std::vector(first, last) : std::vector<RowPlace>{};
  }

  RowCircumstances around_;
  LookRule rule_;
  Glue glue_;
  Reach reach_;
  Span span_{};
};

struct Tip {
  std::size_t place = 0;
  double drop = 0; ///< by how much rows get shorter on both sides, mm
};

/// Compares every place with its neighbourhood: notes how long its row is there, and gives the tips, sharpest first.
std::vector<Tip> tips_of(std::vector<RowPlace>& places) {
  std::vector<Tip> tips;
  const std::size_t count = places.size();
  for (std::size_t k = 0; k < count; ++k) {
    const double window = share_window * places[k].pitch;
    double longest = places[k].reach, below = places[k].reach, above = below;
    bool is_first_longest = true, is_longest = true;
    for (std::size_t i = k; i-- > 0 && places[k].z - places[i].z <= window;) {
      longest = std::max(longest, places[i].reach);
      below = std::min(below, places[i].reach);
      is_first_longest = is_first_longest && places[i].reach < places[k].reach;
    }
    for (std::size_t i = k + 1; i < count && places[i].z - places[k].z <= window; ++i) {
      longest = std::max(longest, places[i].reach);
      above = std::min(above, places[i].reach);
      is_longest = is_longest && places[i].reach <= places[k].reach;
    }
    places[k].share = longest > 0 ? std::max(0.0, places[k].reach) / longest : 1;
    const double drop = places[k].reach - std::max(below, above);
    if (places[k].fits && is_first_longest && is_longest && drop >= tip_drop_mm)
      tips.push_back({k, drop});
  }
  std::stable_sort(tips.begin(), tips.end(), [](const Tip& a, const Tip& b) { return a.drop > b.drop; });
  return tips;
}

/// Takes as many tips as there are ways up the leaf for, the sharpest first.
std::optional<std::vector<int>> with_tips(std::vector<RowPlace>& places, const std::vector<Tip>& tips,
                                          const Placing& placing, double lock) {
  auto found = placing.heights(places, lock);
  for (const Tip& tip : tips) {
    if (!found)
      break;
    places[tip.place].needed = true;
    if (auto better = placing.heights(places, lock))
      found = std::move(better);
    else
      places[tip.place].needed = false;
  }
  return found;
}

Refusal no_room(const Glue& glue) {
  return {"/rows", "No three glue rows " + in_mm(glue.width_mm) + " wide and " + in_mm(shortest_end_row_mm) +
                       " long fit above each other between the gaps of " + in_mm(glue.spine_gap_mm) +
                       " to the spine and " + in_mm(glue.edge_gap_mm) +
                       " to the edge; use a thinner bead of glue, narrower rows, or a larger leaf."};
}

/// Least leaf count above the present one with which rows open, tried one by one in steps of a twentieth.
std::optional<int> enough_leaves(const design::AutoRows& wish, const Leaf& leaf, RowCircumstances around) {
  const double opening_rad = 2 * around.wedge_rad * around.leaves, hub_a_leaf = around.hub_mm / around.leaves;
  for (int leaves = around.leaves + 1; leaves <= most_leaves; leaves += 1 + leaves / 20) {
    around.leaves = leaves;
    around.wedge_rad = opening_rad / (2 * leaves);
    around.hub_mm = hub_a_leaf * leaves;
    const Placing placing(wish, leaf, around);
    if (placing.heights(placing.places(), around.is_opened ? sure_lock : good_lock))
      return leaves;
  }
  return std::nullopt;
}

design::Side side_of(std::size_t row, design::Side first) {
  const bool is_inside = (row % 2 == 0) == (first == design::Side::inside);
  return is_inside ? design::Side::inside : design::Side::between;
}

} // namespace

RowCircumstances circumstances_of(const design::Design& design, const design::Size& size) {
  return {size.opening_deg * std::numbers::pi / 180 / (2.0 * size.leaves),
          size.leaves,
          size.paper.caliper_mm,
          design.making.bead_mm,
          0,
          false,
          1};
}

std::variant<std::vector<GlueRow>, Refusal> auto_rows(const design::AutoRows& wish, const Leaf& leaf,
                                                      const RowCircumstances& circumstances) {
  const Placing placing(wish, leaf, circumstances);
  std::vector<RowPlace> places = placing.places();
  const std::vector<Tip> tips = tips_of(places);
  auto chosen = with_tips(places, tips, placing, good_lock);
  if (!chosen)
    chosen = with_tips(places, tips, placing, most_lock);
  if (!chosen) {
    const auto leaves = enough_leaves(wish, leaf, circumstances);
    if (!leaves)
      return no_room(placing.glue());
    return Refusal{"/leaves", "No spacing of glue rows opens " + std::to_string(circumstances.leaves) +
                                  " leaves of this outline: even three rows would lock; use at least " +
                                  std::to_string(*leaves) + " leaves."};
  }
  std::vector<GlueRow> rows;
  for (const int index : *chosen) {
    const RowPlace& place = places[static_cast<std::size_t>(index)];
    rows.push_back({side_of(rows.size(), wish.first),
                    {placing.inner_end(), place.z},
                    {place.reach, place.z},
                    placing.glue().width_mm});
  }
  return rows;
}

} // namespace fanwright::leaf
