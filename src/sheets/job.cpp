#include "sheets/job.h"

#include "sheets/cheapest.h"
#include "sheets/job_check.h"
#include "sheets/planner.h"
#include "sheets/room.h"

#include <algorithm>

namespace fanwright::sheets {

namespace {

constexpr double um2_per_mm2 = 1e6;
constexpr double rest_share = 0.1; // of the work, for one try with the emptiest sheets

/// The best plan found, or why there is none.
struct Outcome {
  std::optional<JobPlan> best;
  std::vector<int> left; ///< of the last plan that did not take all
  std::optional<std::string> fault;
};

void take_better(std::optional<JobPlan>& best, JobPlan next) {
  if (!best || better(next, *best))
    best = std::move(next);
}

/// A small job of several kinds may do better mixed from the start.
bool worth_mixing(const Job& job) {
  constexpr int most = 120;
  int pieces = 0;
  for (const Kind& kind : job.kinds)
    pieces += std::min(kind.count, most);
  return job.kinds.size() > 1 && pieces <= most;
}

/// Whether one kind alone may fill a sheet, leaves covering at least half of it.
bool may_fill_a_sheet(const Job& job) {
  constexpr double least_covered = 0.5;
  for (const Kind& kind : job.kinds)
    for (const Stock& stock : job.stocks) {
      const Extent room = usable(stock.sheet);
      const double covered = kind.count * area_mm2(shape_of(kind.outline, kind.cut_outs)) * um2_per_mm2;
      if (covered > least_covered * static_cast<double>(room.width()) * static_cast<double>(room.height()))
        return true;
    }
  return false;
}

/// A stretch of the whole work: `share` of it, after `done`.
Effort stretch_of(const Effort& effort, double done, double share) {
  Effort stretch = effort;
  stretch.work = static_cast<std::int64_t>(share * static_cast<double>(effort.work));
  if (effort.progress)
    stretch.progress = [&effort, done, share](double within) { effort.progress(done + share * within); };
  return stretch;
}

/// Whether no other plan can be better: all sheets are alike and no layout needs fewer.
bool cannot_be_better(const JobPlan& plan, const Job& job) {
  return job.stocks.size() == 1 && !job.stocks[0].roll && plan.sheets_in_all <= plan.fewest_sheets;
}

/// Set aside by kinds and mixed from the start, where either may serve.
Outcome in_order(const Job& job, const std::vector<std::size_t>& order, const Effort& effort,
                 const std::shared_ptr<Known>& known) {
  // Whole sheets are found soon and leave little to mix.
  constexpr double setting_aside_share = 0.1;
  Outcome outcome;
  const bool mixing = worth_mixing(job);
  const bool setting_aside = !mixing || may_fill_a_sheet(job), both = mixing && setting_aside;
  for (const bool whole_sheets_first : {true, false}) {
    if (whole_sheets_first ? !setting_aside : !mixing || (outcome.best && cannot_be_better(*outcome.best, job)))
      continue;
    Effort part = effort;
    if (both)
      part = whole_sheets_first ? stretch_of(effort, 0, setting_aside_share)
                                : stretch_of(effort, setting_aside_share, 1 - setting_aside_share);
    // Where no whole sheet comes about, both search alike: the second must not repeat the first.
    part.seed += both && !whole_sheets_first ? 1 : 0;
    auto [next, left] = planned(job, order, whole_sheets_first, part, known);
    if (std::any_of(left.begin(), left.end(), [](int count) { return count > 0; })) {
      outcome.left = std::move(left);
      continue;
    }
    add_figures(next, job);
    if ((outcome.fault = fault(next, job)))
      return outcome;
    take_better(outcome.best, std::move(next));
  }
  return outcome;
}

/// What lies on the emptiest one or two sheets laid on cheaper ones, as long as that saves anything.
void lay_rest_cheaper(JobPlan& plan, const Job& job, const Effort& effort, const std::shared_ptr<Known>& known) {
  constexpr int most_savings = 6;
  const auto cancelled = [&] { return effort.cancelled && effort.cancelled(); };
  for (int count = 1, savings = 0; count <= 2 && savings < most_savings && !cancelled(); ++count) {
    const Rest rest = emptiest(plan, job, count);
    std::optional<JobPlan> best;
    const auto orders = orders_of(rest.job);
    for (const auto& order : orders) {
      const auto work = static_cast<std::int64_t>(rest_share * static_cast<double>(effort.work));
      Outcome outcome = in_order(rest.job, order, {work, effort.seed, {}, effort.cancelled}, known);
      if (outcome.best && !outcome.fault)
        take_better(best, std::move(*outcome.best));
    }
    if (!best || best->cost >= rest.cost)
      continue;
    JobPlan all = joined(rest, *best);
    add_figures(all, job);
    if (fault(all, job) || !better(all, plan))
      continue;
    plan = std::move(all);
    ++savings, count = 0;
  }
}

} // namespace

std::int64_t usual_work(const Job& job) {
  constexpr std::int64_t work_a_kind = 8'000'000;
  constexpr int many_sheets = 3;
  const std::int64_t work = work_a_kind * static_cast<std::int64_t>(job.kinds.size());
  // Papers weighed against each other take their time as it is.
  const bool hard = job.stocks.size() == 1 && worth_mixing(job) && !refused(job) && fewest_sheets(job) >= many_sheets;
  return hard ? 2 * work : work;
}

std::variant<JobPlan, Refusal> plan(const Job& job, const Effort& effort) {
  if (auto refusal = refused(job))
    return *refusal;
  const bool rolls = std::any_of(job.stocks.begin(), job.stocks.end(), [](const Stock& stock) { return stock.roll; });
  std::optional<JobPlan> best;
  std::vector<int> left;
  const auto known = std::make_shared<Known>();
  const auto orders = orders_of(job);
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const double share = 1 / static_cast<double>(orders.size());
    const Effort part = stretch_of(effort, static_cast<double>(i) * share, share);
    Outcome outcome = in_order(job, orders[i], part, known);
    if (outcome.fault)
      return Refusal{"The layout failed its own check: " + *outcome.fault};
    if (!outcome.best) {
      left = std::move(outcome.left);
      continue;
    }
    if (!rolls && orders.size() > 1)
      lay_rest_cheaper(*outcome.best, job, part, known);
    take_better(best, std::move(*outcome.best));
  }
  if (!best)
    return too_few_sheets(job, left);
  return *best;
}

} // namespace fanwright::sheets
