#include "fit/advice.h"

#include "leaf/silhouette.h"
#include "opened/solver.h"

#include <algorithm>
#include <cmath>

namespace fanwright::fit {
namespace {

/// The flat leaf of the size. When a drawn opened outline does not open with the leaves given, the leaf is made as if
/// the drawing were flat: near enough for advice on what does.
std::variant<leaf::Leaf, Failure> looked_at(const design::Design& design, const design::Size& size,
                                            const Options& options) {
  auto leaf = leaf_of(design, size, options);
  const auto* failure = std::get_if<Failure>(&leaf);
  if (failure == nullptr || !failure->fails_check || (options.cancelled && options.cancelled())) {
    return leaf;
  }
  auto drawn = leaf::build(design, size);
  if (auto* built = std::get_if<leaf::Leaf>(&drawn)) {
    return std::move(*built);
  }
  return leaf;
}

void open_one(opened::Solver& solver, const Advice& advice, const design::Size& size, const Options& options,
              Opened& look) {
  opened::Options how;
  how.cancelled = options.cancelled;
  how.mesh = false;
  design::Size other = size;
  other.leaves = look.cells.leaves;
  const auto form = solver.open(opened::panel_of(advice.leaf, other), how);
  if (const auto* found = std::get_if<opened::Form>(&form)) {
    look.height_mm = found->height_mm;
    look.diameter_mm = found->diameter_mm;
    look.moment_nmm = found->holding_moment_nmm;
    look.seam_n_per_mm = found->holding_moment_nmm / (found->diameter_mm / 4) / found->height_mm;
  }
}

} // namespace

std::variant<Advice, Failure> advise(const design::Design& design, const design::Size& size, const Options& options) {
  auto leaf = looked_at(design, size, options);
  if (const auto* failure = std::get_if<Failure>(&leaf)) {
    return *failure;
  }
  Advice advice;
  advice.leaf = std::get<leaf::Leaf>(std::move(leaf));
  advice.body = body_of(advice.leaf);
  advice.leaves = leaf_advice(advice.leaf, size);
  advice.rows = row_advice(advice.leaf, size, advice.leaves.usual);
  advice.paper = paper_advice(advice.body.height_mm);
  std::vector<int> counts = {advice.leaves.low, advice.leaves.usual, advice.leaves.high, size.leaves};
  std::sort(counts.begin(), counts.end());
  counts.erase(std::unique(counts.begin(), counts.end()), counts.end());
  opened::Solver solver;
  for (const int leaves : counts) {
    Opened look;
    look.cells = cells_of(advice.leaf, size, leaves);
    look.present = leaves == size.leaves;
    open_one(solver, advice, size, options, look);
    advice.looks.push_back(look);
    if (options.progress) {
      options.progress(static_cast<double>(advice.looks.size()) / static_cast<double>(counts.size()));
    }
  }
  return advice;
}

} // namespace fanwright::fit
