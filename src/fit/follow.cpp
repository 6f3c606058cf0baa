#include "fit/follow.h"

#include "fit/carried_form.h"
#include "fit/drawing.h"
#include "fit/pull_back.h"
#include "fit/settled.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"
#include "leaf/silhouette.h"
#include "opened/measure.h"

#include <optional>

namespace fanwright::fit {
namespace {

/// Steps of the pull-back through one form; each leaves about a tenth of the miss.
constexpr int pull_steps = 4;

std::variant<leaf::Leaf, Failure> leaf_from(const design::Design& design, const design::Size& size) {
  auto leaf = leaf::build(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf))
    return failure_of(*refusal);
  return std::get<leaf::Leaf>(std::move(leaf));
}

/// A new outline's drawing, its flat points found through the carried form in `steps` steps.
std::variant<Drawing, Failure> pulled(const design::Design& design, design::Size& size, const Followed& last,
                                      int steps) {
  auto start = begun(design, size);
  if (auto* drawing = std::get_if<Drawing>(&start)) {
    const opened::Form form = carried(last.form, last.panel, last.size, size);
    for (int k = 0; k < steps; ++k)
      pull_back(form, *drawing);
  }
  return start;
}

/// A drawing with the leaf that it gives. Just outside the last leaf the deformation is only guessed at; where it leads
/// to no leaf, fewer steps are taken through it.
struct Pulled {
  design::Size size; ///< with rows that place themselves listed
  Drawing drawing;
  leaf::Leaf leaf;
};
std::variant<Pulled, Failure> pulled_leaf(const design::Design& design, const design::Size& size, const Followed& last,
                                          bool curves) {
  std::variant<Pulled, Failure> result = Failure{};
  for (const int steps : {last.coarse ? 1 : pull_steps, last.coarse ? 0 : 1, 0}) {
    design::Size listed = size;
    auto drawing = pulled(design, listed, last, steps);
    if (auto* failure = std::get_if<Failure>(&drawing))
      return std::move(*failure);
    auto leaf = leaf_from(design, listed, std::get<Drawing>(drawing), curves);
    if (auto* found = std::get_if<leaf::Leaf>(&leaf))
      return Pulled{std::move(listed), std::get<Drawing>(std::move(drawing)), std::move(*found)};
    result = std::get<Failure>(std::move(leaf));
  }
  return result;
}

std::variant<Followed, Failure> opened_from(const design::Size& size, leaf::Leaf leaf, opened::Solver* solver,
                                            const opened::Options& options) {
  const opened::Panel panel = opened::panel_of(leaf, size);
  auto form = solver != nullptr ? solver->open(panel, options) : opened::open(panel, options);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    return Failure{size.where, failure->sentence, true};
  return Followed{size, std::move(leaf), panel, std::get<opened::Form>(std::move(form)), false};
}

} // namespace

std::variant<Followed, Failure> begin(const design::Design& design, const design::Size& size, const Options& options) {
  design::Size listed = size;
  std::variant<leaf::Leaf, Failure> leaf = Failure{};
  if (design.shows == design::Shows::flat) {
    leaf = leaf_from(design, size);
  } else {
    const auto drawing = begun(design, listed);
    if (const auto* failure = std::get_if<Failure>(&drawing))
      return *failure;
    leaf = leaf_from(design, listed, std::get<Drawing>(drawing), false);
  }
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  const leaf::Leaf& built = std::get<leaf::Leaf>(leaf);
  opened::Options coarsely;
  coarsely.cancelled = options.cancelled;
  coarsely.detail = opened::Detail::quick;
  auto followed = opened_from(size, built, nullptr, coarsely);
  if (auto* found = std::get_if<Followed>(&followed))
    found->coarse = true;
  return followed;
}

std::variant<Estimate, Failure> estimate(const design::Design& design, const design::Size& size, const Followed& last,
                                         const opened::Preview* preview) {
  std::variant<leaf::Leaf, Failure> leaf = Failure{};
  if (design.shows == design::Shows::flat) {
    leaf = leaf_from(design, size);
  } else {
    auto found = pulled_leaf(design, size, last, false);
    if (auto* failure = std::get_if<Failure>(&found))
      return std::move(*failure);
    leaf = std::get<Pulled>(std::move(found)).leaf;
  }
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  Estimate estimate;
  estimate.leaf = std::get<leaf::Leaf>(std::move(leaf));
  estimate.panel = opened::panel_of(estimate.leaf, size);
  opened::Options unmeshed;
  unmeshed.mesh = false;
  auto shown = preview != nullptr ? preview->open(estimate.panel, unmeshed) : std::nullopt;
  estimate.previewed = shown.has_value();
  if (shown) {
    estimate.form = *std::move(shown);
  } else {
    estimate.form = carried(last.form, last.panel, last.size, size);
    opened::measure_by_place(estimate.panel, estimate.form);
  }
  return estimate;
}

std::variant<Followed, Failure> settle(const design::Design& design, const design::Size& size, const Followed& last,
                                       opened::Solver& solver, const Options& options) {
  const opened::Options how{0, 0, options.progress, options.cancelled, true};
  if (design.shows == design::Shows::opened) {
    auto start = pulled_leaf(design, size, last, true);
    if (auto* failure = std::get_if<Failure>(&start))
      return std::move(*failure);
    auto& [listed, drawing, leaf] = std::get<Pulled>(start);
    auto found = settled(design, listed, std::move(drawing), Begun::near, solver, options);
    if (auto* failure = std::get_if<Failure>(&found))
      return std::move(*failure);
    Settled& best = std::get<Settled>(found);
    const opened::Panel panel = opened::panel_of(best.leaf, listed);
    return Followed{size, std::move(best.leaf), panel, std::move(best.form), false};
  }
  auto leaf = leaf_from(design, size);
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  return opened_from(size, std::get<leaf::Leaf>(std::move(leaf)), &solver, how);
}

std::vector<leaf::Point> wanted_outline(const design::Design& design, const design::Size& size) {
  std::vector<leaf::Point> points;
  if (design.shows == design::Shows::flat)
    return points;
  const auto wanted = leaf::silhouette(design, size);
  if (const auto* cut = std::get_if<leaf::Silhouette>(&wanted))
    points = leaf::flatten(cut->outline, leaf::flatten_tolerance_mm);
  return points;
}

} // namespace fanwright::fit
