#include "fit/derive.h"

#include "fit/carried_form.h"
#include "fit/drawing.h"
#include "fit/foreseen.h"
#include "fit/pull_back.h"
#include "fit/refusals.h"
#include "fit/settled.h"
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

/// A cancel hook that also says yes after so many steps, those of all solves together: it is asked once in each.
std::function<bool()> given_up_after(int steps, std::function<bool()> cancelled) {
  return [left = std::make_shared<int>(steps), cancelled = std::move(cancelled)] {
    return --*left < 0 || (cancelled && cancelled());
  };
}

/// What the outline asks for near the axis and no paper can give, where it shows.
void remark_on_hub(const Drawing& drawing, OpenedLeaf& found) {
  const Hub hub = hub_of(found.form, drawing);
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

Try judged(Settled best, const design::Size& size) {
  OpenedLeaf found{std::move(best.leaf), std::move(best.form), best.overlap, {}, best.solves};
  if (found.overlap < tolerance::least_overlap)
    return hollow(hub_of(found.form, best.drawing), size, found.overlap);
  remark_on_hub(best.drawing, found);
  return found;
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

/// What need not be solved to be refused: rows that lock, and ends that stand off far more than can be.
std::optional<Failure> hopeless(const design::Design& design, const design::Size& size, const Drawing& drawn) {
  const auto leaf = leaf_from(design, size, drawn);
  const auto* found = std::get_if<leaf::Leaf>(&leaf);
  if (found == nullptr)
    return std::nullopt;
  if (auto failure = locked(*found, size))
    return failure;
  const Foreseen ahead = foreseen(drawn, *found, size);
  return ahead.overlap < tolerance::hopeless_overlap ? std::optional(hollow(ahead.hub, size, ahead.overlap))
                                                     : std::nullopt;
}

/// From nothing; near the limits quick answers may lead astray, and full ones are tried too.
std::variant<Settled, Failure> settled_afresh(const design::Design& design, const design::Size& size,
                                              const Drawing& drawn, opened::Solver& solver, const Options& options) {
  auto result = settled(design, size, drawn, Begun::quick, solver, options);
  if (std::holds_alternative<Settled>(result) || (options.cancelled && options.cancelled()))
    return result;
  solver = opened::Solver();
  return settled(design, size, drawn, Begun::full, solver, options);
}

} // namespace

Try Fitter::derive(const design::Design& design, const design::Size& asked, const Options& wished) {
  Options options = wished;
  if (options.most_steps > 0)
    options.cancelled = given_up_after(options.most_steps, options.cancelled);
  design::Size size = asked;
  auto start = begun(design, size, last_ ? last_->drawing.placed : std::nullopt);
  if (auto* failure = std::get_if<Failure>(&start))
    return std::move(*failure);
  if (!last_)
    if (auto failure = hopeless(design, size, std::get<Drawing>(start)))
      return *std::move(failure);
  std::optional<std::variant<Settled, Failure>> result;
  if (last_) {
    Drawing drawing = std::get<Drawing>(std::move(start));
    begin_from(last_->drawing, drawing);
    const opened::Form form = carried(last_->form, last_->panel, last_->size, size);
    for (int k = 0; k < carried_pulls; ++k)
      pull_back(form, drawing);
    result = settled(design, size, std::move(drawing), Begun::near, last_->solver, options);
  }
  opened::Solver solver;
  const bool stopped = options.cancelled && options.cancelled();
  const bool afresh = !result || (std::holds_alternative<Failure>(*result) && !stopped);
  if (afresh) {
    if (last_) { // what was kept may stand in the way
      size = asked;
      start = begun(design, size);
      if (auto* failure = std::get_if<Failure>(&start))
        return std::move(*failure);
    }
    result = settled_afresh(design, size, std::get<Drawing>(start), solver, options);
  }
  if (auto* failure = std::get_if<Failure>(&*result))
    return std::move(*failure);
  auto& best = std::get<Settled>(*result);
  auto last = std::make_unique<Last>(Last{size, best.drawing, opened::panel_of(best.leaf, size), best.form,
                                          std::move(afresh ? solver : last_->solver)});
  Try found = judged(std::move(best), size);
  last_ = std::move(last);
  return found;
}

Try derive(const design::Design& design, const design::Size& size, const Options& options) {
  return Fitter().derive(design, size, options);
}

} // namespace fanwright::fit
