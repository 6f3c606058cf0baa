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
#include "opened/opened.h"
#include "trade_shapes.h"
#include "unreachable.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::bench {
namespace {

/// The worst of all shapes.
struct Worst {
  double overlap = 1, deviation = 0, foot_lift = 0, height = 0, diameter = 0;
  std::vector<double> cold, leaf_more, reshaped;
  int found = 0, refused = 0;

  void add(const Likeness& like) {
    ++found;
    overlap = std::min(overlap, like.overlap);
    deviation = std::max(deviation, like.deviation_mm / like.size_mm);
    foot_lift = std::max(foot_lift, like.foot_lift_mm);
    height = std::max(height, std::abs(like.height_off_mm));
    diameter = std::max(diameter, std::abs(like.diameter_off_mm));
  }
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

struct Found {
  opened::Form form;
  std::string refusal;
};

Found found_in(std::variant<fit::OpenedLeaf, fit::Failure> result) {
  if (const auto* failure = std::get_if<fit::Failure>(&result))
    return {{}, failure->sentence};
  return {std::get<fit::OpenedLeaf>(std::move(result)).form, ""};
}

/// A change that a fitter goes on to.
struct Timed {
  double seconds = 0;
  bool is_refused = false;
};

Timed timed(fit::Fitter& fitter, const design::Design& design, const design::Size& size) {
  const double begun = processor_seconds();
  const auto found = fitter.derive(design, size);
  return {processor_seconds() - begun, std::holds_alternative<fit::Failure>(found)};
}

void measure(int number, const TradeShape& shape, Worst& worst) {
  const design::Size& size = shape.design.sizes[0];
  const auto outline = leaf::silhouette(shape.design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&outline)) {
    fmt::print("{:>3} {:<7} not an outline: {}\n", number, shape.family, refusal->sentence);
    return;
  }
  const double begun = processor_seconds();
  fit::Fitter fitter;
  const Found cold = found_in(fitter.derive(shape.design, size));
  const double cold_seconds = processor_seconds() - begun;
  design::Design reshaped = shape.design;
  reshaped.silhouette_path = fit::narrowed(reshaped.silhouette_path, 0.99);
  const Timed narrower = timed(fitter, reshaped, size);
  design::Size more = size;
  ++more.leaves;
  const Timed leaf_more = timed(fitter, reshaped, more);
  worst.cold.push_back(cold_seconds);
  worst.reshaped.push_back(narrower.seconds);
  worst.leaf_more.push_back(leaf_more.seconds);
  const char* rows = std::holds_alternative<design::AutoRows>(size.rows) ? "auto" : "even";
  if (!cold.refusal.empty()) {
    ++worst.refused;
    fmt::print("{:>3} {:<7} {} {} leaves, {:.0f} ms: {}\n", number, shape.family, rows, size.leaves,
               1000 * cold_seconds, cold.refusal);
    return;
  }
  const Likeness like = likeness(cold.form, std::get<leaf::Silhouette>(outline));
  worst.add(like);
  fmt::print(
      "{:>3} {:<7} {} {:>2} leaves q {:.2f} size {:>3.0f}  overlap {:7.3f} %  off {:6.3f} %  foot {:5.3f} mm  "
      "height {:+6.3f} mm  diameter {:+6.3f} mm  cold {:5.0f} ms  outline {:5.0f} ms{}  leaf more {:5.0f} ms{}\n",
      number, shape.family, rows, size.leaves, cold.form.lock_ratio, like.size_mm, 100 * like.overlap,
      100 * like.deviation_mm / like.size_mm, like.foot_lift_mm, like.height_off_mm, like.diameter_off_mm,
      1000 * cold_seconds, 1000 * narrower.seconds, narrower.is_refused ? " (refused)" : "", 1000 * leaf_more.seconds,
      leaf_more.is_refused ? " (refused)" : "");
}

void print(const Worst& worst) {
  fmt::print("\n{} leaves found, {} refused\n", worst.found, worst.refused);
  fmt::print(
      "worst: overlap {:.3f} %, off {:.3f} % of the size, foot lift {:.3f} mm, height off {:.3f} mm, diameter off "
      "{:.3f} mm\n",
      100 * worst.overlap, 100 * worst.deviation, worst.foot_lift, worst.height, worst.diameter);
  fmt::print("cold (leaf and form): {}\nwarm (1 % narrower): {}\nwarm (one leaf more): {}\n", spread_of(worst.cold),
             spread_of(worst.reshaped), spread_of(worst.leaf_more));
}

} // namespace
} // namespace fanwright::bench

int main(int count, char** arguments) {
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
  Worst worst;
  const auto all = trade_shapes(seed, shapes);
  for (int k = 0; k < shapes; ++k) {
    if (only >= 0 && k != only)
      continue;
    if (only >= 0)
      fmt::print("{}\n", all[static_cast<std::size_t>(k)].design.silhouette_path);
    measure(k, all[static_cast<std::size_t>(k)], worst);
    std::fflush(stdout);
  }
  print(worst);
  return 0;
}
