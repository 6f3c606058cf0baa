#include "fit/leaf_of.h"

#include "fit/drawing.h"
#include "fit/tolerances.h"
#include "opened/opened.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

namespace fanwright::fit {
namespace {

std::string one_decimal(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", value);
  return text;
}

struct Solve {
  std::optional<Failure> failure;
  opened::Form form;
};

/// Opens the drawing's present flat leaf.
Solve solve(const design::Design& design, const design::Size& size, const Drawing& drawing, bool coarse,
            const Options& options) {
  const design::Design flat = flat_design(design, size, drawing, false);
  auto leaf = leaf::build(flat, flat.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    return {Failure{refusal->where, "No flat leaf opens into this outline: " + refusal->sentence, true}, {}};
  }
  opened::Options how;
  how.cancelled = options.cancelled;
  if (coarse) {
    how.cells_per_gap = 4;
    how.cell_mm = std::clamp(drawing.size_mm / 28, 2.5, 8.0);
  }
  auto form = opened::open(opened::panel_of(std::get<leaf::Leaf>(leaf), size), how);
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    return {Failure{size.where, failure->sentence, true}, {}};
  }
  return {std::nullopt, std::get<opened::Form>(std::move(form))};
}

std::variant<leaf::Leaf, Failure> derived(const design::Design& design, design::Size size, const Options& options) {
  auto start = begun(design, size);
  if (auto* failure = std::get_if<Failure>(&start)) {
    return std::move(*failure);
  }
  Drawing drawing = std::get<Drawing>(std::move(start));
  double miss = 0;
  bool coarse = true;
  for (int k = 0; k < tolerance::most_solves; ++k) {
    const Solve solved = solve(design, size, drawing, coarse, options);
    if (solved.failure) {
      return *solved.failure;
    }
    if (solved.form.lock_ratio > tolerance::most_lock) {
      return Failure{size.where, lock_sentence(solved.form.lock_ratio, size.leaves), true};
    }
    const Drawing before = drawing;
    miss = pull_back(solved.form, drawing);
    if (options.progress) {
      options.progress(1.0 - std::pow(0.75, k + 1));
    }
    if (!coarse && miss < tolerance::settled_share * drawing.size_mm) {
      drawing = before;
      break;
    }
    coarse = coarse && k < tolerance::most_solves / 2 && miss > 4 * tolerance::settled_share * drawing.size_mm;
  }
  if (miss > tolerance::outline_share * drawing.size_mm) {
    return Failure{"/silhouette/path",
                   "No flat leaf was found that opens into this outline: the best stays " + one_decimal(miss) +
                       " mm off; soften sharp turns of the outline, or use more leaves or rows.",
                   true};
  }
  const design::Design flat = flat_design(design, size, drawing, true);
  auto leaf = leaf::build(flat, flat.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    return Failure{refusal->where, "No flat leaf opens into this outline: " + refusal->sentence, true};
  }
  return std::get<leaf::Leaf>(std::move(leaf));
}

} // namespace

std::string lock_sentence(double lock_ratio, int leaves) {
  const int enough = static_cast<int>(std::ceil(leaves * lock_ratio / tolerance::most_lock));
  char ratio[32];
  std::snprintf(ratio, sizeof ratio, "%.2f", lock_ratio);
  return std::string("The glue rows lock: lock ratio ") + ratio +
         ", and above 0.9 the paper would have to stretch; use at least " + std::to_string(enough) +
         " leaves, or set the rows further apart.";
}

std::variant<leaf::Leaf, Failure> leaf_of(const design::Design& design, const design::Size& size,
                                          const Options& options) {
  if (design.shows == design::Shows::opened) {
    return derived(design, size, options);
  }
  auto leaf = leaf::build(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    return failure_of(*refusal);
  }
  return std::get<leaf::Leaf>(std::move(leaf));
}

} // namespace fanwright::fit
