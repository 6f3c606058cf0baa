#include "fit/family.h"

#include "fit/advice.h"
#include "fit/advice_practice.h"
#include "fit/advice_wording.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"
#include "leaf/silhouette.h"
#include "leaf/strip.h"
#include "opened/opened.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

namespace fanwright::fit {
namespace {

using leaf::in_mm;

/// Grammages on sale, g/m2 (common practice, no source).
constexpr std::array<double, 16> on_sale = {80,  90,  100, 120, 135, 150, 160, 170,
                                            180, 200, 220, 240, 250, 270, 280, 300};

/// Looks at most so often for rows that open.
constexpr int most_tries = 6;

/// The size a family goes by, as drawn.
struct Drawn {
  design::Size size;
  double height_mm = 0, radius_mm = 0;
  Cells cells;
  double spacing_mm = 0, span_mm = 0; ///< of its rows; 0 when they place themselves and no leaf was made
};

double spacing_of(const leaf::Leaf& leaf) {
  const double span = leaf::middle_z(leaf.rows.back()) - leaf::middle_z(leaf.rows.front());
  return span / std::max(1.0, static_cast<double>(leaf.rows.size()) - 1);
}

std::variant<Drawn, Failure> drawn(const design::Design& design, const design::Size& size, const Options& options) {
  const auto outline = leaf::silhouette(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&outline)) {
    return Failure{refusal->where, refusal->sentence, false};
  }
  Options quiet;
  quiet.cancelled = options.cancelled;
  const auto leaf = leaf_of(design, size, quiet);
  if (const auto* failure = std::get_if<Failure>(&leaf)) {
    return *failure;
  }
  const leaf::Box box = leaf::bounds(std::get<leaf::Silhouette>(outline).outline);
  const leaf::Leaf& flat = std::get<leaf::Leaf>(leaf);
  Drawn drawn{size, box.height(), box.right, cells_of(flat, size, size.leaves), spacing_of(flat), 0};
  if (drawn.cells.most_lock_ratio > tolerance::most_lock) {
    return Failure{size.where,
                   "The size it would go by does not open. " + lock_sentence(drawn.cells.most_lock_ratio, size.leaves),
                   true};
  }
  drawn.span_mm = drawn.spacing_mm * (static_cast<double>(flat.rows.size()) - 1);
  return drawn;
}

double half_millimetres(double mm) { return std::max(1.0, std::round(2 * mm) / 2); }

/// Glue widths and gaps of another height.
void set_glue(design::Size& size, const Drawn& drawn, double height, std::vector<Reason>& reasons) {
  const double share = usual_row_width_mm(height) / usual_row_width_mm(drawn.height_mm);
  double before = 0;
  double now = 0;
  if (auto* even = std::get_if<design::EvenRows>(&size.rows)) {
    before = even->width_mm;
    now = even->width_mm = half_millimetres(share * even->width_mm);
    even->spine_gap_mm = half_millimetres(share * even->spine_gap_mm);
    even->edge_gap_mm = half_millimetres(share * even->edge_gap_mm);
  } else if (auto* listed = std::get_if<std::vector<design::ListedRow>>(&size.rows)) {
    before = listed->front().width_mm;
    for (design::ListedRow& row : *listed) {
      row.width_mm = half_millimetres(share * row.width_mm);
    }
    now = listed->front().width_mm;
  } else {
    return;
  }
  reasons.push_back({"glue", in_mm(now) + " wide (drawn " + in_mm(before) +
                                 "): a bead of glue does not grow and shrink as the leaf does"});
}

/// Rows at a spacing that leaves the cells as open as drawn.
void set_rows(design::Size& size, const Drawn& drawn, double scale, std::vector<Reason>& reasons) {
  auto* even = std::get_if<design::EvenRows>(&size.rows);
  if (even == nullptr) {
    const bool listed = std::holds_alternative<std::vector<design::ListedRow>>(size.rows);
    reasons.push_back(
        {"rows", listed ? "listed one by one, so their places grow with the silhouette" : "they place themselves"});
    return;
  }
  const double ratio = std::clamp(drawn.cells.lock_ratio, 0.15, 0.6);
  const double reach =
      drawn.cells.lock_ratio * (drawn.spacing_mm - std::get<design::EvenRows>(drawn.size.rows).width_mm);
  const double swing = reach * scale * drawn.size.leaves / size.leaves;
  // At least 12 mm apart, unless that closes the cells more than drawn.
  const double roomy =
      std::min(practice::least_spacing_mm, even->width_mm + swing / std::min(ratio, practice::least_lock));
  const double apart = std::clamp(std::max(even->width_mm + swing / ratio, roomy),
                                  even->width_mm + practice::least_clear_mm, practice::most_spacing_mm);
  // Two rows more or less at a time: foot and top keep their sides.
  const int pairs = static_cast<int>(std::lround((scale * drawn.span_mm / apart + 1 - even->count) / 2));
  even->count = std::max(even->count + 2 * pairs, 2 + even->count % 2);
  reasons.push_back({"rows", ""});
}

void explain_rows(const Drawn& drawn, Proposal& proposal) {
  const auto* even = std::get_if<design::EvenRows>(&proposal.size.rows);
  const auto reason =
      std::find_if(proposal.reasons.begin(), proposal.reasons.end(), [](const Reason& r) { return r.what == "rows"; });
  if (even == nullptr || reason == proposal.reasons.end()) {
    return;
  }
  const Cells cells = cells_of(proposal.leaf, proposal.size, proposal.size.leaves);
  reason->sentence = std::to_string(even->count) + ", " + in_mm(proposal.row_spacing_mm) + " apart (drawn " +
                     std::to_string(std::get<design::EvenRows>(drawn.size.rows).count) + ", " +
                     in_mm(drawn.spacing_mm) + "): cells " + in_mm(cells.height_mm) + " high with a lock ratio of " +
                     number(cells.lock_ratio, 2) + " (drawn " + number(drawn.cells.lock_ratio, 2) +
                     "), and the foot and top row keep their sides";
}

void set_leaves(design::Size& size, const Drawn& drawn, double scale, std::vector<Reason>& reasons) {
  const double share =
      usual_leaves(scale * drawn.radius_mm, size.opening_deg) / usual_leaves(drawn.radius_mm, size.opening_deg);
  size.leaves = std::clamp(static_cast<int>(std::lround(share * drawn.size.leaves)), 2, 400);
  const auto cell = [&](int leaves) {
    return in_mm(size.opening_deg * std::numbers::pi / 180 * scale * drawn.radius_mm / leaves);
  };
  reasons.push_back({"leaves", std::to_string(size.leaves) + " (drawn " + std::to_string(drawn.size.leaves) +
                                   "): cells " + cell(size.leaves) + " wide at the widest place; " +
                                   std::to_string(drawn.size.leaves) + " would make them " + cell(drawn.size.leaves) +
                                   ", and cells grow less than the piece"});
}

double stiffness_of(const paper::Paper& paper) {
  return std::sqrt(paper.modulus_along_mpa * paper.modulus_across_mpa) * std::pow(paper.caliper_mm, 3);
}

std::string words_for_sag(double sag) {
  if (sag > 0.95 && sag < 1.05) {
    return "as much as drawn, for their size";
  }
  return sag < 1 ? "less for their size, " + percent(sag, 0) + " of what they do as drawn"
                 : "more for their size, " + number(sag, 1) + " times what they do as drawn";
}

void set_paper(design::Size& size, const Drawn& drawn, double height, Proposal& proposal) {
  const paper::Paper& before = drawn.size.paper;
  const double gsm = family_gsm(before.grammage_gsm, drawn.height_mm, height);
  const double wanted = before.caliper_mm * std::pow(proposal.scale, 1.5);
  if (gsm != before.grammage_gsm) {
    // The same kind of paper in another weight: as much bulkier and stiffer than is typical as the drawn size's.
    const paper::Paper old_kind = paper::typical_paper(before.grammage_gsm);
    size.paper = paper::typical_paper(gsm);
    size.paper.caliper_mm *= before.caliper_mm / old_kind.caliper_mm;
    size.paper.modulus_along_mpa *= before.modulus_along_mpa / old_kind.modulus_along_mpa;
    size.paper.modulus_across_mpa *= before.modulus_across_mpa / old_kind.modulus_across_mpa;
    size.paper.poisson = before.poisson;
    size.paper.grain = before.grain;
  }
  proposal.sag = std::pow(proposal.scale, 3) * size.paper.grammage_gsm / before.grammage_gsm * stiffness_of(before) /
                 stiffness_of(size.paper);
  const PaperAdvice usual = paper_advice(height);
  proposal.reasons.push_back(
      {"paper", number(size.paper.grammage_gsm, 0) + " g/m2, " + number(size.paper.caliper_mm, 2) + " mm (drawn " +
                    number(before.grammage_gsm, 0) + "): to sag as much for its size it would be " + number(wanted, 2) +
                    " mm thick, and " + number(usual.low_gsm, 0) + " to " + number(usual.high_gsm, 0) +
                    " g/m2 are usual at this height; its leaves sag " + words_for_sag(proposal.sag)});
}

std::string name_of(std::size_t index, std::size_t count, double height) {
  static constexpr std::array<const char*, 3> three = {"small", "medium", "large"};
  if (count <= 3 && count > 1) {
    return three[count == 2 ? 2 * index : index];
  }
  std::string name = number(height, 1);
  if (name.ends_with(".0")) {
    name.resize(name.size() - 2);
  }
  return name + " mm";
}

/// Opens the proposal; what stands in the way, or nothing.
std::optional<Failure> open(const design::Design& design, Proposal& proposal, const Options& options) {
  Options quiet;
  quiet.cancelled = options.cancelled;
  auto leaf = leaf_of(design, proposal.size, quiet);
  if (auto* failure = std::get_if<Failure>(&leaf)) {
    return std::move(*failure);
  }
  proposal.leaf = std::get<leaf::Leaf>(std::move(leaf));
  opened::Options how;
  how.cancelled = options.cancelled;
  how.mesh = false;
  const auto form = opened::open(opened::panel_of(proposal.leaf, proposal.size), how);
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    return Failure{proposal.size.where, failure->sentence, true};
  }
  const auto& found = std::get<opened::Form>(form);
  if (found.lock_ratio > practice::most_lock) {
    return Failure{proposal.size.where, lock_sentence(found.lock_ratio, proposal.size.leaves), true};
  }
  const leaf::Box box = leaf::bounds(proposal.leaf.outline);
  proposal.flat_width_mm = 2 * box.right;
  proposal.flat_height_mm = box.height();
  proposal.height_mm = found.height_mm;
  proposal.diameter_mm = found.diameter_mm;
  proposal.lock_ratio = found.lock_ratio;
  proposal.holding_moment_nmm = found.holding_moment_nmm;
  proposal.row_spacing_mm = spacing_of(proposal.leaf);
  return std::nullopt;
}

/// Makes a proposal that does not open easier to open: two rows fewer, or more leaves where rows are fixed or few.
void ease(design::Size& size) {
  auto* even = std::get_if<design::EvenRows>(&size.rows);
  if (even != nullptr && even->count > 4) {
    even->count -= 2;
  } else {
    size.leaves = std::min(400, size.leaves + 2);
  }
}

std::variant<Proposal, Failure> proposed(const design::Design& design, const Drawn& drawn, double height,
                                         const std::string& name, const Options& options) {
  Proposal proposal;
  proposal.scale = height / drawn.height_mm;
  proposal.size = drawn.size;
  proposal.size.name = name;
  proposal.size.height_mm = height;
  set_leaves(proposal.size, drawn, proposal.scale, proposal.reasons);
  set_glue(proposal.size, drawn, height, proposal.reasons);
  set_rows(proposal.size, drawn, proposal.scale, proposal.reasons);
  set_paper(proposal.size, drawn, height, proposal);
  std::optional<Failure> failure;
  for (int k = 0; k < most_tries; ++k) {
    failure = open(design, proposal, options);
    if (!failure || (options.cancelled && options.cancelled())) {
      break;
    }
    ease(proposal.size);
  }
  if (failure) {
    return Failure{drawn.size.where, "At a height of " + in_mm(height) + " no proposal opens: " + failure->sentence,
                   true};
  }
  explain_rows(drawn, proposal);
  return proposal;
}

std::optional<Failure> unsound(std::vector<double>& heights) {
  std::sort(heights.begin(), heights.end());
  if (heights.empty() || heights.size() > most_sizes_of_family) {
    return Failure{"", "A family has 1 to 12 sizes; give as many heights, like 120,180,260.", false};
  }
  for (std::size_t k = 0; k < heights.size(); ++k) {
    if (!(heights[k] >= 10 && heights[k] <= 2000)) {
      return Failure{"", "A height of " + in_mm(heights[k]) + " cannot be made; give heights of 10 to 2000 mm.", false};
    }
    if (k > 0 && heights[k] - heights[k - 1] < 0.1) {
      return Failure{"", "The height " + in_mm(heights[k]) + " is given twice; give each once.", false};
    }
  }
  return std::nullopt;
}

} // namespace

double family_gsm(double drawn_gsm, double drawn_height_mm, double height_mm) {
  if (std::abs(height_mm / drawn_height_mm - 1) < 0.02) {
    return drawn_gsm;
  }
  const auto middle = [](double height) {
    return std::clamp(practice::small_gsm * std::pow(height / practice::small_height_mm, practice::gsm_power),
                      practice::small_gsm, practice::most_gsm);
  };
  // Half of what the maker's own choice lies above or below the usual goes with her to other heights.
  const double taste = std::sqrt(std::clamp(drawn_gsm / middle(drawn_height_mm), 0.6, 1.7));
  const double usual = taste * middle(height_mm);
  // However unusual her own paper is, a higher size gets none lighter than it, a lower one none heavier.
  const bool higher = height_mm > drawn_height_mm;
  const double bound = std::max((1 - practice::gsm_either_way) * usual, std::min(drawn_gsm, practice::small_gsm));
  const double least = higher ? std::max(bound, drawn_gsm) : std::min(bound, drawn_gsm);
  const double most = std::max(least, (1 + practice::gsm_either_way) * usual);
  const double wanted = std::clamp(drawn_gsm * std::pow(height_mm / drawn_height_mm, 1.5), least, most);
  // Lighter than is usual the leaves sag; so what is on sale from there on counts.
  const double lightest = std::min(least, on_sale.back());
  const auto away = [&](double gsm) {
    const bool wrong = gsm < lightest || (!higher && gsm > drawn_gsm);
    return std::pair(wrong, std::abs(gsm - wanted));
  };
  return *std::ranges::min_element(on_sale, {}, away);
}

std::variant<std::vector<Proposal>, Failure> family(const design::Design& design, const design::Size& from,
                                                    const std::vector<double>& heights_mm, const Options& options) {
  std::vector<double> heights = heights_mm;
  if (auto failure = unsound(heights)) {
    return *std::move(failure);
  }
  const auto base = drawn(design, from, options);
  if (const auto* failure = std::get_if<Failure>(&base)) {
    return *failure;
  }
  std::vector<Proposal> proposals;
  for (std::size_t k = 0; k < heights.size(); ++k) {
    auto proposal =
        proposed(design, std::get<Drawn>(base), heights[k], name_of(k, heights.size(), heights[k]), options);
    if (options.cancelled && options.cancelled()) {
      return Failure{"", "Stopped before the family was complete.", false};
    }
    if (const auto* failure = std::get_if<Failure>(&proposal)) {
      return *failure;
    }
    proposals.push_back(std::get<Proposal>(std::move(proposal)));
    if (options.progress) {
      options.progress(static_cast<double>(k + 1) / static_cast<double>(heights.size()));
    }
  }
  return proposals;
}

} // namespace fanwright::fit
