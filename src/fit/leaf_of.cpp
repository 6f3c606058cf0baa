#include "fit/leaf_of.h"

#include "fit/derive.h"
#include "fit/drawing.h"
#include "fit/tolerances.h"

#include <cmath>
#include <cstdio>
#include <utility>

namespace fanwright::fit {

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
    auto found = derive(design, size, options);
    if (auto* failure = std::get_if<Failure>(&found)) {
      return std::move(*failure);
    }
    return std::get<OpenedLeaf>(std::move(found)).leaf;
  }
  auto leaf = leaf::build(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    return failure_of(*refusal);
  }
  return std::get<leaf::Leaf>(std::move(leaf));
}

std::variant<OpenedLeaf, Failure> opened_leaf(const design::Design& design, const design::Size& size,
                                              const Options& options) {
  if (design.shows == design::Shows::opened) {
    return derive(design, size, options);
  }
  auto leaf = leaf_of(design, size, options);
  if (auto* failure = std::get_if<Failure>(&leaf)) {
    return std::move(*failure);
  }
  auto form = opened::open(opened::panel_of(std::get<leaf::Leaf>(leaf), size),
                           {0, 0, options.progress, options.cancelled, true});
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    return Failure{size.where, failure->sentence, true};
  }
  return OpenedLeaf{std::get<leaf::Leaf>(std::move(leaf)), std::get<opened::Form>(std::move(form)), 1, {}};
}

} // namespace fanwright::fit
