#include "fit/derive.h"

#include "fit/carried_form.h"
#include "fit/drawing.h"
#include "fit/pull_back.h"
#include "fit/refusals.h"
#include "fit/tolerances.h"
#include "opened/solver.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>

namespace fanwright::fit {
namespace {

using leaf::Point;
/// Steps of the pull-back through a carried form; each leaves about a tenth of the miss.
constexpr int carried_pulls = 4;

using Try = std::variant<OpenedLeaf, Failure>;

/// A cancel hook that also says yes after so many steps: it is asked once in each.
std::function<bool()> given_up_after(int steps, std::function<bool()> cancelled) {
  return
      [left = steps, cancelled = std::move(cancelled)]() mutable { return --left < 0 || (cancelled && cancelled()); };
}

/// Leaf of the drawing's present state, and its form, from the solver's last one where that is near. `curves`: few
/// smooth curves are wanted; comes back false when only straight lines made a leaf. `coarse`: wide cells will do.
Try opened(const design::Design& design, const design::Size& size, const Drawing& drawing, bool& curves, bool coarse,
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
  if (auto failure = locked(std::get<leaf::Leaf>(leaf), size))
    return *std::move(failure);
  opened::Options how;
  how.cancelled = options.cancelled;
  if (coarse)
    widen_cells(std::get<leaf::Leaf>(leaf), how);
  const opened::Panel panel = opened::panel_of(std::get<leaf::Leaf>(leaf), size);
  auto form = solver.open(panel, how);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    return Failure{size.where, failure->sentence, true};
  return OpenedLeaf{std::get<leaf::Leaf>(std::move(leaf)), std::get<opened::Form>(std::move(form)), 1, {}};
}

/// What the outline asks for near the axis and no paper can give, where it shows.
void remark_on_hub(const Drawing& drawing, OpenedLeaf& found) {
  const Hub hub = hub_of(found.form);
  double worst = 0;
  Point where;
  for (const Run& run : drawing.outline)
    for (const Point wanted : run.wanted) {
      const Point reached = hub.reachable(wanted);
      // Level stretches of foot and top lose nothing: they only end sooner.
      if (reached.x - wanted.x > worst && wanted.z > 0.5 && wanted.z < found.form.height_mm - 0.5) {
        worst = reached.x - wanted.x;
        where = wanted;
      }
    }
  const bool shows = worst > tolerance::seen_hub_share * drawing.size_mm;
  if (found.overlap >= tolerance::good_overlap && !shows)
    return;
  std::string remark = "The opened silhouette covers the drawn one to " + decimals(100 * found.overlap, 1) + " %";
  if (shows)
    remark += ": at height " + decimals(where.z, 0) +
              " mm the outline is drawn nearer to the axis than the folds can come, and the ornament is up to " +
              decimals(worst, 1) + " mm wider each side";
  found.remarks.push_back(remark + ".");
}

/// The best of several solves, and the drawing it is of.
struct Best {
  std::optional<OpenedLeaf> found;
  Drawing drawing;
  double miss_mm = 0;
};

Try judged(Best best, const design::Size& size) {
  const Drawing& drawing = best.drawing;
  best.found->overlap = overlap(best.found->form, drawing);
  if (best.found->overlap < tolerance::least_overlap)
    return hollow(best.found->form, size, best.found->overlap);
  remark_on_hub(drawing, *best.found);
  return *std::move(best.found);
}

} // namespace

struct Fitter::Last {
  design::Size size;
  Drawing drawing;
  opened::Panel panel;
  opened::Form form;
  opened::Solver solver;
};

Fitter::Fitter() = default;
Fitter::~Fitter() = default;
Fitter::Fitter(Fitter&&) noexcept = default;
Fitter& Fitter::operator=(Fitter&&) noexcept = default;

namespace {

/// How a drawing is begun: from nothing with narrow cells, or with wide ones first, or pulled through a form like its
/// own.
enum class Begun { narrow, wide, near };

/// Solves and pulls back until the outline has settled.
std::variant<Best, Failure> settled(const design::Design& design, const design::Size& size, Drawing drawing,
                                    Begun start, opened::Solver& solver, const Options& options) {
  bool is_near = start == Begun::near;
  Best best;
  double miss = 0;
  for (int k = 0; k < tolerance::most_solves; ++k) {
    bool curves = is_near;
    // Until the points have nearly settled, wide cells tell where they go as well as narrow ones.
    const bool coarse = start == Begun::wide && !is_near;
    Try tried = opened(design, size, drawing, curves, coarse, solver, options);
    if (auto* failure = std::get_if<Failure>(&tried))
      return std::move(*failure);
    auto& found = std::get<OpenedLeaf>(tried);
    if (found.form.lock_ratio > tolerance::most_lock)
      return locked(found.form.lock_ratio, size);
    const Drawing solved = drawing;
    miss = pull_back(found.form, drawing);
    if (options.progress)
      options.progress(1.0 - std::pow(0.6, k + 1));
    if (curves && !coarse && (!best.found || miss < best.miss_mm))
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

/// From nothing; near the limits wide cells may lead astray, and narrow ones are tried too.
std::variant<Best, Failure> settled_afresh(const design::Design& design, const design::Size& size, const Drawing& drawn,
                                           opened::Solver& solver, const Options& options) {
  auto result = settled(design, size, drawn, Begun::wide, solver, options);
  if (std::holds_alternative<Best>(result) || (options.cancelled && options.cancelled()))
    return result;
  solver = opened::Solver();
  return settled(design, size, drawn, Begun::narrow, solver, options);
}

} // namespace

Try Fitter::derive(const design::Design& design, const design::Size& asked, const Options& wished) {
  Options options = wished;
  if (options.most_steps > 0)
    options.cancelled = given_up_after(options.most_steps, options.cancelled);
  design::Size size = asked;
  auto start = begun(design, size);
  if (auto* failure = std::get_if<Failure>(&start))
    return std::move(*failure);
  const Drawing& drawn = std::get<Drawing>(start);
  if (auto failure = crowded(drawn, size))
    return *std::move(failure);
  std::optional<std::variant<Best, Failure>> result;
  if (last_) {
    Drawing drawing = drawn;
    begin_from(last_->drawing, drawing);
    const opened::Form form = carried(last_->form, last_->panel, last_->size, size);
    for (int k = 0; k < carried_pulls; ++k)
      pull_back(form, drawing);
    result = settled(design, size, std::move(drawing), Begun::near, last_->solver, options);
  }
  opened::Solver solver;
  const bool stopped = options.cancelled && options.cancelled();
  const bool afresh = !result || (std::holds_alternative<Failure>(*result) && !stopped);
  if (afresh)
    result = settled_afresh(design, size, drawn, solver, options);
  if (auto* failure = std::get_if<Failure>(&*result))
    return std::move(*failure);
  auto& best = std::get<Best>(*result);
  auto last = std::make_unique<Last>(Last{size, best.drawing, opened::panel_of(best.found->leaf, size),
                                          best.found->form, std::move(afresh ? solver : last_->solver)});
  Try found = judged(std::move(best), size);
  last_ = std::move(last);
  return found;
}

Try derive(const design::Design& design, const design::Size& size, const Options& options) {
  return Fitter().derive(design, size, options);
}

} // namespace fanwright::fit
