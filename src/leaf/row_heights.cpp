#include "leaf/row_heights.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <utility>

namespace fanwright::leaf {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
/// Weight of each pitch that an end row lies off its place: paper beyond it hangs free, so only a tip draws it away.
constexpr double end_weight = 1.0;
/// Weight of a row that is shorter than its neighbourhood: it leaves a flap without glue.
constexpr double short_weight = 0.5;

/// Gaps behind a row on its way up: none yet, an odd number, or an even one.
enum Stage : std::size_t { begun, odd, even };

/// The cheapest way to a place at one stage.
struct Step {
  double cost = infinity;
  int before = -1;
};

class Ladder {
public:
  Ladder(const std::vector<RowPlace>& places, const GapLimits& limits) : places_(places), limits_(limits) {
    rungs_.push_back(0);
    needed_.push_back(0);
    for (const RowPlace& place : places)
      needed_.push_back(needed_.back() + (place.needed ? 1 : 0));
    for (std::size_t k = 1; k < places.size(); ++k) {
      const double rise = places[k].z - places[k - 1].z;
      rungs_.push_back(rungs_.back() + rise * (1 / places[k].pitch + 1 / places[k - 1].pitch) / 2);
    }
  }

  /// Cost of a gap from place i up to place k; infinite when it may not be.
  double gap(std::size_t i, std::size_t k) const {
    const double clear = places_[k].z - places_[i].z - limits_.width_mm;
    const double arc = limits_.wedge_rad * std::min(places_[i].reach, places_[k].reach);
    if (clear < limits_.least_mm || arc > limits_.most_lock * clear || needed_[k] > needed_[i + 1])
      return infinity;
    const double pitches = rungs_[k] - rungs_[i];
    return (pitches - 1) * (pitches - 1);
  }

  double place(std::size_t k) const {
    const double missing = 1 - places_[k].share;
    return places_[k].fits ? short_weight * missing * missing : infinity;
  }

  /// Cost of leaving the stretch up to place k, or from place i, without a row.
  double below(std::size_t k) const { return end(rungs_[k], needed_[k]); }
  double above(std::size_t i) const { return end(rungs_.back() - rungs_[i], needed_.back() - needed_[i + 1]); }

private:
  static double end(double pitches, int passed) { return pitches > 1 || passed > 0 ? infinity : end_weight * pitches; }

  const std::vector<RowPlace>& places_;
  const GapLimits& limits_;
  std::vector<double> rungs_; ///< wanted pitches below each place
  std::vector<int> needed_;   ///< needed places below each place
};

/// The rows on the cheapest way to the even stage at place k, from the foot.
std::vector<int> way_back(const std::vector<std::array<Step, 3>>& steps, int k) {
  std::vector<int> rows;
  Stage stage = even;
  while (k >= 0) {
    rows.push_back(k);
    k = steps[static_cast<std::size_t>(k)][stage].before;
    if (k >= 0) {
      // An odd stage is reached from an even one or from the start, whichever was cheaper.
      const auto& back = steps[static_cast<std::size_t>(k)];
      stage = stage == even ? odd : back[begun].cost <= back[even].cost ? begun : even;
    }
  }
  std::reverse(rows.begin(), rows.end());
  return rows;
}

} // namespace

std::optional<std::vector<int>> row_heights(const std::vector<RowPlace>& places, const GapLimits& limits) {
  const Ladder ladder(places, limits);
  std::vector<std::array<Step, 3>> steps(places.size());
  Step best;
  for (std::size_t k = 0; k < places.size(); ++k) {
    if (!places[k].fits)
      continue;
    steps[k][begun].cost = ladder.below(k);
    for (std::size_t i = 0; i < k; ++i) {
      const double gap = ladder.gap(i, k);
      if (gap == infinity)
        continue;
      for (const auto& [from, to] : {std::pair{begun, odd}, {odd, even}, {even, odd}})
        if (const double cost = steps[i][from].cost + gap; cost < steps[k][to].cost)
          steps[k][to] = {cost, static_cast<int>(i)};
    }
    for (Step& step : steps[k])
      step.cost += ladder.place(k);
    if (const double cost = steps[k][even].cost + ladder.above(k); cost < best.cost)
      best = {cost, static_cast<int>(k)};
  }
  if (best.before < 0)
    return std::nullopt;
  return way_back(steps, best.before);
}

} // namespace fanwright::leaf
