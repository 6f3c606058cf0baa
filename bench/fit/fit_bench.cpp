// How near derived leaves open to their wanted outlines, and how long it takes to find them.
//
//   bench_fit --count 60 --seed 1 --commit "$(git rev-parse --short HEAD)"
//   bench_fit --only 14                      one shape, with its design
//   bench_fit --unreachable 200              targets that no leaf reaches: are they refused, do the remedies work
#include "../processor_time.h"
#include "fit/derive.h"
#include "fit/narrowed.h"
#include "leaf/silhouette.h"
#include "likeness.h"
#include "opened/memory.h"
#include "opened/opened.h"
#include "trade_shapes.h"
#include "unreachable.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <functional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::bench {
namespace {

/// The worst of several leaves.
struct Worst {
  double overlap = 1, deviation = 0, foot_lift = 0, height = 0, diameter = 0;

  void add(const Likeness& like) {
    overlap = std::min(overlap, like.overlap);
    deviation = std::max(deviation, like.deviation_mm / like.size_mm);
    foot_lift = std::max(foot_lift, like.foot_lift_mm);
    height = std::max(height, std::abs(like.height_off_mm));
    diameter = std::max(diameter, std::abs(like.diameter_off_mm));
  }
};

/// A change that a fitter went on to.
struct Change {
  double seconds = 0;
  std::string what;
  std::size_t rows_before = 0, rows = 0;
  fit::Solves solves;
  std::string refusal;
};

/// What came of all shapes.
struct Tally {
  Worst cold, warm;
  std::vector<double> cold_seconds, leaf_more, reshaped;
  std::vector<Change> changes;
  int found = 0, refused = 0;
};

std::string spread_of(std::vector<double> seconds) {
  if (seconds.empty())
    return "-";
  std::sort(seconds.begin(), seconds.end());
  double sum = 0;
  for (const double s : seconds)
    sum += s;
  const std::size_t last = seconds.size() - 1;
  return fmt::format("mean {:.0f}, median {:.0f}, 9 in 10 below {:.0f}, worst {:.0f} ms",
                     1000 * sum / static_cast<double>(seconds.size()), 1000 * seconds[last / 2],
                     1000 * seconds[last * 9 / 10], 1000 * seconds[last]);
}

/// The changed design's leaf, from the one before, measured; `rows` becomes its number of rows.
Change changed(fit::Fitter& fitter, const design::Design& design, const design::Size& size, std::size_t& rows,
               Worst& worst) {
  Change change;
  change.rows_before = change.rows = rows;
  const double begun = processor_seconds();
  const auto result = fitter.derive(design, size);
  change.seconds = processor_seconds() - begun;
  if (const auto* failure = std::get_if<fit::Failure>(&result)) {
    change.refusal = failure->sentence;
    return change;
  }
  const auto& found = std::get<fit::OpenedLeaf>(result);
  change.solves = found.solves;
  change.rows = rows = found.leaf.rows.size();
  const auto outline = leaf::silhouette(design, size);
  worst.add(likeness(found.form, std::get<leaf::Silhouette>(outline)));
  return change;
}

void measure(int number, const TradeShape& shape, Tally& tally) {
  const design::Size& size = shape.design.sizes[0];
  const auto outline = leaf::silhouette(shape.design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&outline)) {
    fmt::print("{:>3} {:<7} not an outline: {}\n", number, shape.family, refusal->sentence);
    return;
  }
  const double begun = processor_seconds();
  fit::Fitter fitter;
  const auto cold = fitter.derive(shape.design, size);
  const double cold_seconds = processor_seconds() - begun;
  const auto* found = std::get_if<fit::OpenedLeaf>(&cold);
  std::size_t rows = found != nullptr ? found->leaf.rows.size() : 0;
  design::Design reshaped = shape.design;
  reshaped.silhouette_path = fit::narrowed(reshaped.silhouette_path, 0.99);
  Change narrower = changed(fitter, reshaped, size, rows, tally.warm);
  design::Size more = size;
  ++more.leaves;
  Change leaf_more = changed(fitter, reshaped, more, rows, tally.warm);
  narrower.what = fmt::format("{} {} narrower", number, shape.family);
  leaf_more.what = fmt::format("{} {} one leaf more", number, shape.family);
  tally.cold_seconds.push_back(cold_seconds);
  tally.reshaped.push_back(narrower.seconds);
  tally.leaf_more.push_back(leaf_more.seconds);
  tally.changes.push_back(narrower);
  tally.changes.push_back(leaf_more);
  const char* placed = std::holds_alternative<design::AutoRows>(size.rows) ? "auto" : "even";
  if (found == nullptr) {
    ++tally.refused;
    fmt::print("{:>3} {:<7} {} {} leaves, {:.0f} ms: {}\n", number, shape.family, placed, size.leaves,
               1000 * cold_seconds, std::get<fit::Failure>(cold).sentence);
    return;
  }
  ++tally.found;
  const Likeness like = likeness(found->form, std::get<leaf::Silhouette>(outline));
  tally.cold.add(like);
  fmt::print(
      "{:>3} {:<7} {} {:>2} leaves q {:.2f} size {:>3.0f}  overlap {:7.3f} %  off {:6.3f} %  foot {:5.3f} mm  "
      "height {:+6.3f} mm  diameter {:+6.3f} mm  cold {:5.0f} ms  outline {:5.0f} ms{}  leaf more {:5.0f} ms{}\n",
      number, shape.family, placed, size.leaves, found->form.lock_ratio, like.size_mm, 100 * like.overlap,
      100 * like.deviation_mm / like.size_mm, like.foot_lift_mm, like.height_off_mm, like.diameter_off_mm,
      1000 * cold_seconds, 1000 * narrower.seconds, narrower.refusal.empty() ? "" : " (refused)",
      1000 * leaf_more.seconds, leaf_more.refusal.empty() ? "" : " (refused)");
}

void print(const char* which, const Worst& worst) {
  fmt::print("worst {}: overlap {:.3f} %, off {:.3f} % of the size, foot lift {:.3f} mm, height off {:.3f} mm, "
             "diameter off {:.3f} mm\n",
             which, 100 * worst.overlap, 100 * worst.deviation, worst.foot_lift, worst.height, worst.diameter);
}

/// What the slowest changes spent their time on.
void print_slowest(std::vector<Change> changes) {
  std::ranges::sort(changes, std::greater(), &Change::seconds);
  changes.resize(std::min<std::size_t>(changes.size(), 8));
  for (const Change& change : changes)
    fmt::print("  {:<26} {:4.0f} ms: {} quick solves {:4.0f} ms, {} full {:4.0f} ms, rows {} to {} {}\n", change.what,
               1000 * change.seconds, change.solves.quick, 1000 * change.solves.quick_seconds, change.solves.full,
               1000 * change.solves.full_seconds, change.rows_before, change.rows, change.refusal);
}

void print(const Tally& tally) {
  fmt::print("\n{} leaves found, {} refused\n", tally.found, tally.refused);
  print("cold", tally.cold);
  print("warm", tally.warm);
  fmt::print("cold (leaf and form): {}\nwarm (1 % narrower): {}\nwarm (one leaf more): {}\nslowest changes:\n",
             spread_of(tally.cold_seconds), spread_of(tally.reshaped), spread_of(tally.leaf_more));
  print_slowest(tally.changes);
}

} // namespace
} // namespace fanwright::bench

int main(int count, char** arguments) try {
  fanwright::opened::keep_memory();
  using namespace fanwright::bench;
  std::string commit = "not given";
  std::uint64_t seed = 1;
  int shapes = 60, only = -1, unreachable = 0;
  for (int i = 1; i + 1 < count; i += 2) {
    const std::string name = arguments[i], value = arguments[i + 1];
    if (name == "--count")
      shapes = std::atoi(value.c_str());
    else if (name == "--seed")
      seed = std::strtoull(value.c_str(), nullptr, 10);
    else if (name == "--commit")
      commit = value;
    else if (name == "--unreachable")
      unreachable = std::atoi(value.c_str());
    else if (name == "--only")
      only = std::atoi(value.c_str());
  }
  fmt::print("commit {}, seed {}\n", commit, seed);
  if (unreachable > 0)
    return bench_unreachable(seed, unreachable, only);
  Tally tally;
  const auto all = trade_shapes(seed, shapes);
  for (int k = 0; k < shapes; ++k) {
    if (only >= 0 && k != only)
      continue;
    if (only >= 0)
      fmt::print("{}\n", all[static_cast<std::size_t>(k)].design.silhouette_path);
    measure(k, all[static_cast<std::size_t>(k)], tally);
    std::fflush(stdout);
  }
  print(tally);
  return 0;
} catch (const std::exception& error) {
  std::fputs(error.what(), stderr);
  return 1;
}
