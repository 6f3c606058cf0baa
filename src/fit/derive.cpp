#include "fit/derive.h"

#include "fit/drawing.h"
#include "fit/pull_back.h"
#include "fit/tolerances.h"
#include "leaf/region.h"
#include "opened/solver.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <utility>

namespace fanwright::fit {
namespace {

using leaf::Point;
using Try = std::variant<OpenedLeaf, Failure>;

std::string decimals(double value, int places) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", places, value);
  return text;
}

/// Leaf of the drawing's present state, and its form, from the solver's last one where that is near. `curves`: few
/// smooth curves are wanted; comes back false when only straight lines made a leaf.
Try opened(const design::Design& design, const design::Size& size, const Drawing& drawing, bool& curves,
           opened::Solver& solver, const Options& options) {
  design::Design flat = flat_design(design, size, drawing, curves);
  auto leaf = leaf::build(flat, flat.sizes[0]);
  if (curves && std::holds_alternative<design::Refusal>(leaf)) {
    curves = false;
    flat = flat_design(design, size, drawing, curves);
    leaf = leaf::build(flat, flat.sizes[0]);
  }
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf))
    return Failure{refusal->where, "No flat leaf opens into this outline: " + refusal->sentence, true};
  opened::Options how;
  how.cancelled = options.cancelled;
  const opened::Panel panel = opened::panel_of(std::get<leaf::Leaf>(leaf), size);
  auto form = solver.open(panel, how);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    return Failure{size.where, failure->sentence, true};
  return OpenedLeaf{std::get<leaf::Leaf>(std::move(leaf)), std::get<opened::Form>(std::move(form)), {}};
}

/// Opened and wanted silhouette as rings that end on the axis.
double overlap(const opened::Form& form, const Drawing& drawing) {
  leaf::Ring found, wanted;
  for (const opened::EdgePoint& p : form.edge)
    found.push_back({p.radius, p.height});
  for (const Run& run : drawing.outline)
    wanted.insert(wanted.end(), run.wanted.begin(), run.wanted.end());
  for (leaf::Ring* ring : {&found, &wanted}) {
    const Point foot = ring->front(), top = ring->back();
    ring->insert(ring->end(), {Point{0, top.z}, Point{0, foot.z}});
  }
  return leaf::overlap(found, wanted);
}

/// What the outline asks for near the axis and no paper can give.
void remark_on_hub(const opened::Form& form, const Drawing& drawing, double share, OpenedLeaf& found) {
  const Hub hub = hub_of(form);
  double worst = 0;
  Point where;
  for (const Run& run : drawing.outline)
    for (const Point wanted : run.wanted) {
      const Point reached = hub.reachable(wanted);
      // Level stretches of foot and top lose nothing: they only end sooner.
      if (reached.x - wanted.x > worst && wanted.z > 0.5 && wanted.z < form.height_mm - 0.5) {
        worst = reached.x - wanted.x;
        where = wanted;
      }
    }
  if (worst > tolerance::outline_share * drawing.size_mm)
    found.remarks.push_back("At height " + decimals(where.z, 0) +
                            " mm the outline is drawn nearer to the axis than the "
                            "folds can come: there the ornament is up to " +
                            decimals(worst, 1) + " mm wider each side.");
  if (share < tolerance::good_overlap)
    found.remarks.push_back("The opened silhouette covers the drawn one to " + decimals(100 * share, 1) +
                            " %; more leaves, or rows further apart, bring the folds nearer to the axis.");
}

/// Rows that lock; leaves enough for the folds to stay near the axis too.
Failure locked(double ratio, const design::Size& size) {
  const int enough = static_cast<int>(std::ceil(size.leaves * ratio / tolerance::sure_lock));
  return {size.where + "/leaves",
          "The glue rows lock: lock ratio " + decimals(ratio, 2) +
              ", and above 0.9 the paper would have to stretch; use at least " + std::to_string(enough) +
              " leaves, or set the rows further apart.",
          true};
}

/// The ends of the spine stand too far off the axis.
Failure hollow(const opened::Form& form, const design::Size& size, double share) {
  const Hub hub = hub_of(form);
  // The ends stand off with the square of the lock ratio, and so with that of the leaves.
  const double more = std::sqrt((1 - share) / (1 - tolerance::least_overlap));
  return {size.where + "/leaves",
          "No flat leaf opens into this outline: the folds bend away from the axis, by " +
              decimals(std::max(hub.foot_radius, hub.top_radius), 0) +
              " mm at the ends, and the silhouette matches to " + decimals(100 * share, 1) + " % only; use at least " +
              std::to_string(static_cast<int>(std::ceil(size.leaves * more))) +
              " leaves, or set the rows further apart.",
          true};
}

Failure off(double miss_mm) {
  return {"/silhouette/path",
          "No flat leaf was found that opens into this outline: the best stays " + decimals(miss_mm, 1) +
              " mm off; soften sharp turns of the outline, or use more leaves or rows.",
          true};
}

/// The best of several solves, and the drawing it is of.
struct Best {
  std::optional<OpenedLeaf> found;
  Drawing drawing;
  double miss_mm = 0;
};

Try judged(Best best, const design::Size& size) {
  const Drawing& drawing = best.drawing;
  const double share = overlap(best.found->form, drawing);
  if (share < tolerance::least_overlap)
    return hollow(best.found->form, size, share);
  remark_on_hub(best.found->form, drawing, share, *best.found);
  return *std::move(best.found);
}

} // namespace

struct Fitter::Last {
  Drawing drawing;
  opened::Form form;
  opened::Solver solver;
};

Fitter::Fitter() = default;
Fitter::~Fitter() = default;
Fitter::Fitter(Fitter&&) noexcept = default;
Fitter& Fitter::operator=(Fitter&&) noexcept = default;

namespace {

/// Solves and pulls back until the outline has settled. `is_near`: the drawing was pulled through a form like its own.
std::variant<Best, Failure> settled(const design::Design& design, const design::Size& size, Drawing drawing,
                                    bool is_near, opened::Solver& solver, const Options& options) {
  Best best;
  double miss = 0;
  for (int k = 0; k < tolerance::most_solves; ++k) {
    bool curves = is_near;
    Try tried = opened(design, size, drawing, curves, solver, options);
    if (auto* failure = std::get_if<Failure>(&tried))
      return std::move(*failure);
    auto& found = std::get<OpenedLeaf>(tried);
    if (found.form.lock_ratio > tolerance::most_lock)
      return locked(found.form.lock_ratio, size);
    const Drawing solved = drawing;
    miss = pull_back(found.form, drawing);
    if (options.progress)
      options.progress(1.0 - std::pow(0.6, k + 1));
    if (curves && (!best.found || miss < best.miss_mm))
      best = {std::move(found), solved, miss};
    // Curves are laid through points that have nearly settled; before that they would only wave.
    is_near = is_near || miss < tolerance::near_share * drawing.size_mm;
    if (!best.found)
      continue;
    // Two equilibria may take turns: what is good enough is not looked for again and again.
    const bool stays = miss > best.miss_mm && best.miss_mm < 0.5 * tolerance::outline_share * drawing.size_mm;
    if (best.miss_mm < tolerance::settled_share * drawing.size_mm || stays)
      break;
  }
  if (!best.found || best.miss_mm > tolerance::outline_share * drawing.size_mm)
    return off(best.found ? best.miss_mm : miss);
  return best;
}

} // namespace

Try Fitter::derive(const design::Design& design, const design::Size& asked, const Options& options) {
  design::Size size = asked;
  auto start = begun(design, size);
  if (auto* failure = std::get_if<Failure>(&start))
    return std::move(*failure);
  const Drawing& drawn = std::get<Drawing>(start);
  std::optional<std::variant<Best, Failure>> result;
  if (last_) {
    Drawing drawing = drawn;
    begin_from(last_->drawing, drawing);
    pull_back(last_->form, drawing);
    result = settled(design, size, std::move(drawing), true, last_->solver, options);
  }
  opened::Solver solver;
  const bool stopped = options.cancelled && options.cancelled();
  const bool afresh = !result || (std::holds_alternative<Failure>(*result) && !stopped);
  if (afresh)
    result = settled(design, size, drawn, false, solver, options);
  if (auto* failure = std::get_if<Failure>(&*result))
    return std::move(*failure);
  auto& best = std::get<Best>(*result);
  auto last = std::make_unique<Last>(Last{best.drawing, best.found->form, std::move(afresh ? solver : last_->solver)});
  Try found = judged(std::move(best), size);
  last_ = std::move(last);
  return found;
}

Try derive(const design::Design& design, const design::Size& size, const Options& options) {
  return Fitter().derive(design, size, options);
}

} // namespace fanwright::fit
