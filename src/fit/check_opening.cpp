// opens.rows, opens.paper: whether it opens at all. closes.pull: whether the glue holds it open.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "leaf/leaf.h"
#include "opened/opening.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fit {
namespace {

constexpr int most_leaves = 400; ///< of a design file

std::string leaves_that_open(int leaves, double ratio) {
  // q falls as 1 / leaves on the same leaf; the hub grows with the leaves and so moves a derived outline a little.
  const int well = static_cast<int>(std::ceil(leaves * ratio / limit::opens_well_lock));
  const double apart = ratio / limit::opens_well_lock;
  const std::string rows =
      "set those rows " + decimal(std::ceil(10 * apart) / 10, 1) + " times as far apart (fewer rows, or narrower ones)";
  if (well > most_leaves)
    return "No number of leaves helps: " + rows + ".";
  constexpr double apart_within_reason = 2;
  return "Use at least " + std::to_string(well) + " leaves" + (apart <= apart_within_reason ? ", or " + rows : "") +
         ".";
}

} // namespace

void check_lock(const Subject& subject, const opened::Form& form, Findings& findings) {
  const auto tightest = std::ranges::max_element(form.row_locks, {}, &opened::RowLock::ratio);
  Finding finding = measured("opens.rows", form.lock_ratio, "", limit::lock_source, pointer(subject, "/rows"));
  finding.verdict = above(form.lock_ratio, limit::opens_well_lock, limit::opens_lock);
  finding.limit = finding.verdict == Finding::fails ? limit::opens_lock : limit::opens_well_lock;
  const std::string gap = tightest == form.row_locks.end() ? std::string("the rows")
                                                           : "rows " + std::to_string(tightest->lower + 1) + " and " +
                                                                 std::to_string(tightest->upper + 1) + " from the foot";
  const std::string ratio = decimal(form.lock_ratio, 2);
  if (finding.verdict == Finding::good) {
    finding.sentence = "The rows let it open well: lock ratio " + ratio + ", largest between " + gap + ".";
  } else {
    finding.sentence =
        finding.verdict == Finding::fails
            ? "It does not open round: between " + gap + " the lock ratio is " + ratio +
                  ", and above 0.90 the paper there would have to stretch."
            : "It opens with force: between " + gap + " the lock ratio is " + ratio + "; below 0.70 it opens well.";
    finding.remedy = leaves_that_open(subject.size.leaves, form.lock_ratio);
  }
  findings.push_back(std::move(finding));
}

void check_strain(const Subject& subject, const opened::Form& form, Findings& findings) {
  Finding finding =
      measured("opens.paper", 100 * form.peak_strain, "%", limit::strain_source, pointer(subject, "/leaves"));
  finding.verdict = above(form.peak_strain, limit::easy_strain, limit::torn_strain);
  finding.limit = 100 * (finding.verdict == Finding::fails ? limit::torn_strain : limit::easy_strain);
  const std::string strain = decimal(finding.value, 1) + " %";
  if (finding.verdict == Finding::good) {
    finding.sentence = "The paper is stretched by " + strain + " at most.";
  } else {
    finding.sentence =
        "Opening stretches the paper by " + strain + " at the worst place, and paper tears at about 2 %.";
    // The stretch grows about as the square of the lock ratio, and so falls as 1 / leaves^2.
    const int leaves =
        static_cast<int>(std::ceil(subject.size.leaves * std::sqrt(form.peak_strain / limit::easy_strain))) + 1;
    finding.remedy = "Use about " + std::to_string(leaves) + " leaves, or fewer rows.";
  }
  findings.push_back(std::move(finding));
}

// The pull along the rows as `open` tells it, on the width of the narrowest row.
void check_pull(const Subject& subject, const opened::Form& form, Findings& findings) {
  if (subject.leaf.rows.empty())
    return;
  const double per_mm = opened::row_pull(opened::panel_of(subject.leaf, subject.size), form.holding_moment_nmm);
  const double pull = per_mm / std::ranges::min(subject.leaf.rows, {}, &leaf::GlueRow::width_mm).width_mm;
  Finding finding = measured("closes.pull", pull, "MPa", limit::pull_source, pointer(subject, "/rows"));
  finding.verdict = above(pull, limit::easy_pull_mpa, limit::splitting_pull_mpa);
  finding.limit = finding.verdict == Finding::fails ? limit::splitting_pull_mpa : limit::easy_pull_mpa;
  finding.sentence = "Held open, it pulls at its glue with " + decimal(per_mm, 2) + " N on each mm of row, " +
                     decimal(pull, 2) + " MPa";
  if (finding.verdict == Finding::good) {
    finding.sentence += "; the paper under the glue holds that.";
  } else {
    finding.sentence += finding.verdict == Finding::fails ? "; the paper under the glue splits." : ", which is much.";
    // The moment grows at least as the wedge's angle, and so falls at least as 1 / leaves.
    const int leaves = static_cast<int>(std::ceil(subject.size.leaves * pull / limit::easy_pull_mpa));
    finding.remedy = "Take thinner paper, or " + std::to_string(leaves) +
                     " leaves; in any case let the glue dry for a day before opening.";
  }
  findings.push_back(std::move(finding));
}

} // namespace fanwright::fit
