#include "fit/advice.h"

#include "fit/advice_practice.h"
#include "fit/advice_wording.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"
#include "leaf/strip.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fit {
namespace {

using leaf::in_mm;

/// Two neighbouring rows on different walls, as far as they lie above each other.
struct Gap {
  double outer_mm = 0; ///< from the spine to where both have ended
  double clear_mm = 0; ///< of paper between them
  double pitch_mm = 0; ///< from centre line to centre line
};

std::vector<Gap> gaps_of(const leaf::Leaf& leaf) {
  std::vector<Gap> gaps;
  for (std::size_t k = 0; k + 1 < leaf.rows.size(); ++k) {
    const leaf::GlueRow& lower = leaf.rows[k];
    const leaf::GlueRow& upper = leaf.rows[k + 1];
    const double outer = std::min(lower.to.x, upper.to.x);
    const double clear = leaf::clear_between(lower, upper);
    if (lower.side != upper.side && outer > std::max(lower.from.x, upper.from.x) && clear > 0) {
      gaps.push_back({outer, clear, clear + (lower.width_mm + upper.width_mm) / 2});
    }
  }
  return gaps;
}

Gap widest_of(const std::vector<Gap>& gaps) {
  return *std::max_element(gaps.begin(), gaps.end(),
                           [](const Gap& a, const Gap& b) { return a.outer_mm < b.outer_mm; });
}

double opening_rad(const design::Size& size) { return size.opening_deg * std::numbers::pi / 180; }

/// q = beta x1 / s with beta = opening / (2 leaves).
double lock_ratio(const Gap& gap, const design::Size& size, int leaves) {
  return opening_rad(size) / (2.0 * leaves) * gap.outer_mm / gap.clear_mm;
}

/// Fewest leaves at which no gap passes `ratio`.
int fewest_leaves(const std::vector<Gap>& gaps, const design::Size& size, double ratio) {
  double fewest = 2;
  for (const Gap& gap : gaps) {
    fewest = std::max(fewest, lock_ratio(gap, size, 1) / ratio);
  }
  return static_cast<int>(std::ceil(fewest - 1e-9));
}

/// Clear paper between rows that suits a radius, mm.
double usual_clear_mm(double radius_mm) {
  return std::clamp(practice::usual_clear_mm * std::pow(radius_mm / practice::usual_radius_mm, practice::clear_power),
                    practice::least_clear_mm, practice::most_clear_mm);
}

/// Most leaves whose hub and closed stack still suit the body.
struct Most {
  int leaves = 400;
  std::string reason;
};

Most most_leaves(const Body& body, const design::Size& size) {
  Most most;
  const double caliper = size.paper.caliper_mm;
  const int stacked = static_cast<int>(practice::most_stack_mm / (2 * caliper + practice::film_mm));
  if (stacked < most.leaves) {
    most = {stacked, "with more the closed stack of this paper would be thicker than " +
                         in_mm(practice::most_stack_mm) + ", and clips no longer hold it flat"};
  }
  if (body.neck_mm > 0) {
    const double hub = practice::most_hub_share * body.neck_mm;
    const int round = static_cast<int>(hub * opening_rad(size) / (2 * caliper));
    if (round < most.leaves) {
      most = {round, "with more the hub along the axis would fill over a third of the neck, which is " +
                         in_mm(body.neck_mm) + " from spine to edge"};
    }
  }
  return most;
}

} // namespace

Body body_of(const leaf::Leaf& leaf) {
  Body body;
  const leaf::Box box = leaf::bounds(leaf.outline);
  body.height_mm = box.height();
  body.radius_mm = box.right;
  for (const leaf::Point& p : leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm)) {
    if (p.x > box.right - 0.05) {
      body.widest_z_mm = p.z;
      break;
    }
  }
  // Rows show where the body is narrow better than the outline, whose tiers may overhang.
  for (std::size_t k = 1; k + 1 < leaf.rows.size(); ++k) {
    const auto outer = [](const leaf::GlueRow& a, const leaf::GlueRow& b) { return a.to.x < b.to.x; };
    const auto here = leaf.rows.begin() + static_cast<std::ptrdiff_t>(k);
    const double below = std::max_element(leaf.rows.begin(), here, outer)->to.x;
    const double above = std::max_element(here + 1, leaf.rows.end(), outer)->to.x;
    const double reach = here->to.x;
    if (reach < practice::neck_share * std::min(below, above) && (body.neck_mm == 0 || reach < body.neck_mm)) {
      body.neck_mm = reach;
    }
  }
  return body;
}

Openness openness_of(double lock_ratio) {
  if (lock_ratio < 0.2) {
    return Openness::slits;
  }
  if (lock_ratio < practice::least_lock) {
    return Openness::narrow;
  }
  if (lock_ratio < 0.55) {
    return Openness::open;
  }
  return lock_ratio <= practice::most_lock ? Openness::wide : Openness::stretched;
}

std::string words_for(Openness openness) {
  switch (openness) {
  case Openness::slits:
    return "nearly closed slits";
  case Openness::narrow:
    return "narrow, tall eyes";
  case Openness::open:
    return "open eyes";
  case Openness::wide:
    return "wide, round cells";
  case Openness::stretched:
    return "stretched: the paper strains";
  }
  return "";
}

Cells cells_of(const leaf::Leaf& leaf, const design::Size& size, int leaves) {
  Cells cells;
  cells.leaves = leaves;
  const double caliper = size.paper.caliper_mm;
  // 2 N halves, each t thick, side by side round the axis: circumference of the hub = 2 N t.
  cells.hub_radius_mm = 2 * leaves * caliper / opening_rad(size);
  cells.stack_mm = leaves * (2 * caliper + practice::film_mm);
  const std::vector<Gap> gaps = gaps_of(leaf);
  if (gaps.empty()) {
    return cells;
  }
  const Gap widest = widest_of(gaps);
  cells.width_mm = opening_rad(size) * body_of(leaf).radius_mm / leaves;
  // Rows of one kind stand two rows apart; what one of them is wide is not cell.
  cells.height_mm = widest.pitch_mm + widest.clear_mm;
  cells.lock_ratio = lock_ratio(widest, size, leaves);
  for (const Gap& gap : gaps) {
    cells.most_lock_ratio = std::max(cells.most_lock_ratio, lock_ratio(gap, size, leaves));
  }
  // Round both walls of each leaf there is one cell in every two rows.
  cells.per_dm2 = 1e4 / (cells.width_mm * widest.pitch_mm);
  return cells;
}

// N from q = beta x / s with beta = opening / (2 N).
double usual_leaves(double radius_mm, double opening_deg) {
  const double opening = opening_deg * std::numbers::pi / 180;
  return opening * radius_mm / (2 * practice::usual_lock * usual_clear_mm(radius_mm));
}

LeafAdvice leaf_advice(const leaf::Leaf& leaf, const design::Size& size) {
  const Body body = body_of(leaf);
  const double usual = usual_leaves(body.radius_mm, size.opening_deg);
  const auto cell_mm = [&](int leaves) { return in_mm(opening_rad(size) * body.radius_mm / leaves); };
  LeafAdvice advice;
  advice.usual = std::max(2, static_cast<int>(std::lround(usual)));
  advice.low = std::max(2, static_cast<int>(std::ceil((1 - practice::leaves_either_way) * usual)));
  advice.high = std::max(advice.usual, static_cast<int>((1 + practice::leaves_either_way) * usual));
  advice.low_reason = "with fewer the cells would be wider than " + cell_mm(advice.low) +
                      " at the widest place and look sparse for a piece of this size";
  advice.high_reason = "with more the cells would be narrower than " + cell_mm(advice.high) +
                       " at the widest place, and glue and hands no longer get between them";
  const Most most = most_leaves(body, size);
  if (most.leaves < advice.high) {
    advice.high = std::max(2, most.leaves);
    advice.high_reason = most.reason;
  }
  if (advice.low > advice.high) {
    advice.low = advice.high;
    advice.low_reason = "more would suit the body, but not this paper";
  }
  const int opens = fewest_leaves(gaps_of(leaf), size, practice::most_lock);
  if (opens > advice.low) {
    advice.rows_ask_for_more = opens > advice.high;
    advice.low = opens;
    advice.low_reason = "with fewer the rows as they stand would pass a lock ratio of 0.7, and the paper strains";
  }
  if (advice.rows_ask_for_more) {
    advice.high = advice.low;
    advice.high_reason = "no more are needed; rows further apart would do with fewer";
  }
  advice.usual = std::clamp(advice.usual, advice.low, advice.high);
  return advice;
}

double usual_row_width_mm(double height_mm) {
  return std::clamp(std::round(2 * (1.5 + height_mm / 120)) / 2, 2.0, 5.0);
}

RowAdvice row_advice(const leaf::Leaf& leaf, const design::Size& size, int leaves) {
  RowAdvice advice;
  if (leaf.rows.size() < 2) {
    return advice;
  }
  const double width = leaf.rows.front().width_mm;
  const double swing = opening_rad(size) / (2.0 * leaves) * body_of(leaf).radius_mm;
  const double span = leaf::middle_z(leaf.rows.back()) - leaf::middle_z(leaf.rows.front());
  const auto spacing = [&](double ratio) { return width + swing / ratio; };
  const auto count = [&](double apart) { return std::max(2, static_cast<int>(std::lround(span / apart)) + 1); };
  // At least 12 mm apart, unless that closes the cells; small bodies take closer rows.
  const double roomy = std::min(practice::least_spacing_mm, spacing(practice::least_lock));
  // At most 25 mm apart, unless they would lock there.
  const double most = std::max(practice::most_spacing_mm, spacing(0.6));
  const double least = width + practice::least_clear_mm;
  const double usual = std::clamp(std::max(spacing(practice::usual_lock), roomy), least, most);
  advice.usual = count(usual);
  advice.low = std::min(advice.usual, count(std::min(most, spacing(practice::least_lock))));
  advice.high = std::max(advice.usual, count(std::max(spacing(0.6), least)));
  advice.spacing_mm = span / (advice.usual - 1);
  advice.reason = "with " + std::to_string(leaves) + " leaves the paper between two rows swings " + in_mm(swing) +
                  " aside at the widest place; rows " + in_mm(advice.spacing_mm) + " apart make that a lock ratio of " +
                  number(swing / (advice.spacing_mm - width), 2) + " (0.35 to 0.7 opens well, less leaves slits)";
  return advice;
}

PaperAdvice paper_advice(double height_mm) {
  const double usual =
      std::clamp(practice::small_gsm * std::pow(height_mm / practice::small_height_mm, practice::gsm_power),
                 practice::small_gsm, practice::most_gsm);
  const double low = std::max(practice::small_gsm - 10, (1 - practice::gsm_either_way) * usual);
  const double high = std::min(practice::most_gsm, (1 + practice::gsm_either_way) * usual);
  const auto to_five = [](double gsm) { return 5 * std::round(gsm / 5); };
  PaperAdvice advice{to_five(low), to_five(usual), to_five(high), ""};
  advice.reason =
      usual < practice::small_gsm + 2.5
          ? "a small piece: heavier paper makes a thick hub and stiff folds, lighter paper curls"
      : usual >= practice::most_gsm
          ? "as heavy as folds well; heavier card springs open"
          : "a piece this high: lighter paper lets the leaves sag, heavier makes the stack thick and hard to "
            "open";
  return advice;
}

} // namespace fanwright::fit
