#include "random_designs.h"

#include "changes.h"

#include "../fit/trade_shapes.h"
#include "../processor_time.h"
#include "fit/advice.h"
#include "fit/check_limits.h"
#include "fit/leaf_of.h"
#include "opened/opened.h"
#include "opened/preview.h"
#include "opened/solver.h"

#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::bench {
namespace {

using opened::Form;
using opened::Panel;

constexpr double most_lock = 0.7;

struct Result {
  std::string family;
  Panel panel;
  double ms = 0;
};

struct Tally {
  int lost = 0, unreal = 0, broken = 0, most_factors = 0;
};

bool is_finite(const Form& form) {
  const bool edge = std::ranges::all_of(
      form.edge, [](const opened::EdgePoint& p) { return std::isfinite(p.radius) && std::isfinite(p.height); });
  return edge && std::isfinite(form.height_mm + form.diameter_mm + form.peak_strain + form.holding_moment_nmm +
                               form.bending_energy_nmm + form.membrane_energy_nmm + form.hub_radius_mm);
}

Result opened_panel(const std::string& family, const Panel& panel, Tally& tally) {
  const double start = processor_seconds();
  const auto form = opened::open(panel, measured_only());
  Result result{family, panel, 1e3 * (processor_seconds() - start)};
  if (const auto* found = std::get_if<Form>(&form)) {
    tally.broken += is_finite(*found) ? 0 : 1;
    tally.unreal += found->lock_ratio > fit::limit::opens_lock || found->peak_strain > fit::limit::torn_strain ? 1 : 0;
    tally.most_factors = std::max(tally.most_factors, found->factorisations);
  } else {
    ++tally.lost;
  }
  return result;
}

/// The value that `share` of them lie below.
double share_of(std::vector<double>& values, double share) {
  std::ranges::sort(values);
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

/// Leaves drawn flat with the outlines of the trade.
std::vector<Result> panels(std::uint64_t seed, int count) {
  std::vector<Result> found;
  for (TradeShape& shape : trade_shapes(seed, 2 * count)) {
    shape.design.shows = design::Shows::flat;
    const design::Size& size = shape.design.sizes.front();
    const auto drawn = fit::leaf_of(shape.design, size);
    const auto* leaf = std::get_if<leaf::Leaf>(&drawn);
    if (leaf != nullptr && fit::cells_of(*leaf, size, size.leaves).most_lock_ratio <= most_lock &&
        static_cast<int>(found.size()) < count)
      found.push_back({shape.family, opened::panel_of(*leaf, size), 0});
  }
  return found;
}

/// The same leaf made so that it cannot open.
Panel spoilt(Panel panel, Draws& draw) {
  switch (draw.whole(0, 3)) {
  case 0:
    panel.leaves = std::max(2, panel.leaves / draw.whole(4, 12));
    break;
  case 1:
    for (leaf::GlueRow& row : panel.rows)
      row.width_mm *= draw.between(2, 6);
    break;
  case 2:
    panel.sheet.thickness_mm *= draw.between(8, 40);
    break;
  default:
    for (std::size_t k = 1; k < panel.rows.size(); k += 2) {
      const double nearer = draw.between(0.6, 0.95) * (panel.rows[k].from.z - panel.rows[k - 1].from.z);
      panel.rows[k].from.z -= nearer;
      panel.rows[k].to.z -= nearer;
    }
  }
  return panel;
}

/// Previews against the full forms beside the one before.
struct Previews {
  std::vector<double> errors; ///< shares of the size
  std::vector<double> ms;
  int none = 0;

  void add(const std::optional<opened::Preview>& preview, const Panel& panel, const Form& settled) {
    const double start = processor_seconds();
    const auto shown = preview ? preview->open(panel, measured_only()) : std::nullopt;
    ms.push_back(1e3 * (processor_seconds() - start));
    none += shown ? 0 : 1;
    errors.push_back(shown ? edge_distance(*shown, settled) : 0);
  }

  void print() {
    if (errors.empty())
      return;
    fmt::print("{} previews, {} without an answer: edge off by {:.3f} % of the size in the middle, 9 in 10 below "
               "{:.3f}, worst {:.3f}; CPU ms {:.1f}, {:.1f}, {:.1f}\n",
               errors.size(), none, 100 * share_of(errors, 0.5), 100 * share_of(errors, 0.9), 100 * share_of(errors, 1),
               share_of(ms, 0.5), share_of(ms, 0.9), share_of(ms, 1));
  }
};

/// Full forms beside the one before against those from the start.
struct Followed {
  std::vector<double> errors;   ///< shares of the size, where both are the same equilibrium
  std::vector<double> energies; ///< by what share more is left in the followed one, there
  int lower = 0, higher = 0;    ///< another equilibrium, of clearly less or more energy

  void add(const Panel& panel, const Form& settled) {
    const auto start = opened::open(panel, measured_only());
    const auto* cold = std::get_if<Form>(&start);
    if (cold == nullptr)
      return;
    const double more = settled.energy_nmm() / cold->energy_nmm() - 1;
    const double apart = edge_distance(settled, *cold);
    if (std::abs(more) > 1e-4 && apart > 1e-3) {
      ++(more < 0 ? lower : higher);
      return;
    }
    energies.push_back(more);
    errors.push_back(apart);
  }

  void print() {
    if (errors.empty())
      return;
    fmt::print(
        "{} forms followed from another: edge off that from the start by {:.3f} % of the size in the middle, 9 in "
        "10 below {:.3f}, worst {:.3f}; energy more by {:.1e}, {:.1e}, {:.1e}; {} in another equilibrium of less "
        "energy, {} of more\n",
        errors.size(), 100 * share_of(errors, 0.5), 100 * share_of(errors, 0.9), 100 * share_of(errors, 1),
        share_of(energies, 0.5), share_of(energies, 0.9), share_of(energies, 1), lower, higher);
  }
};

/// Goes on from the form of a leaf to that with a point moved, with a row moved and with two leaves more.
void change(const Panel& before, Previews& previews, Followed& followed) {
  const auto first = opened::open(before, measured_only());
  const auto* form = std::get_if<Form>(&first);
  if (form == nullptr)
    return;
  const auto settled = [&](const Panel& panel) {
    return opened::Solver(before, *form).open_beside(panel, measured_only());
  };
  const auto preview = opened::Preview::from(before, *form);
  for (const Panel& panel : {with_point_moved(before), with_row_moved(before)})
    if (const auto beside = settled(panel)) {
      previews.add(preview, panel, *beside);
      followed.add(panel, *beside);
    }
  Panel more_leaves = before;
  more_leaves.leaves += 2;
  if (const auto beside = settled(more_leaves))
    followed.add(more_leaves, *beside);
}

void print_times(const std::vector<Result>& results) {
  std::vector<double> ms;
  ms.reserve(results.size());
  for (const Result& result : results)
    ms.push_back(result.ms);
  const double mean = std::accumulate(ms.begin(), ms.end(), 0.0) / static_cast<double>(ms.size());
  const Result& worst = *std::ranges::max_element(results, {}, &Result::ms);
  fmt::print("  CPU ms: mean {:.0f}, median {:.0f}, 9 in 10 below {:.0f}, worst {:.0f} ({}, {} leaves)\n", mean,
             share_of(ms, 0.5), share_of(ms, 0.9), worst.ms, worst.family, worst.panel.leaves);
}

} // namespace

int bench_random_designs(std::uint64_t seed, int count) {
  std::vector<Result> well = panels(seed, count);
  Draws draw(seed + 1);
  std::vector<Result> badly;
  Tally found, spoilt_found;
  for (Result& result : well) {
    badly.push_back(opened_panel(result.family, spoilt(result.panel, draw), spoilt_found));
    result = opened_panel(result.family, result.panel, found);
  }
  fmt::print("{} leaves that open: {} not found, {} with a number that is not finite, at most {} factors\n",
             well.size(), found.lost, found.broken, found.most_factors);
  print_times(well);
  fmt::print("{} leaves that do not: {} not found, {} found past the limits of lock and strain, {} with a number that "
             "is not finite\n",
             badly.size(), spoilt_found.lost, spoilt_found.unreal, spoilt_found.broken);
  print_times(badly);
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  Previews previews;
  Followed followed;
  for (const Result& result : well)
    change(result.panel, previews, followed);
  previews.print();
  followed.print();
  fmt::print("most memory {:.0f} MB\n", static_cast<double>(used.ru_maxrss) / 1024);
  return found.lost + found.broken + spoilt_found.broken > 0 ? 1 : 0;
}

} // namespace fanwright::bench
