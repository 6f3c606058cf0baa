#include "fit/compare.h"

#include "fit/advice.h"
#include "fit/advice_wording.h"
#include "fit/compare_causes.h"
#include "fit/compare_neighbours.h"
#include "fit/tolerances.h"
#include "leaf/silhouette.h"

#include <algorithm>
#include <cmath>

namespace fanwright::fit {
namespace {

/// Solves of one cause before the best value so far is taken.
constexpr int most_refinements = 3;

/// Explanations that fit and whose scores differ by less than this are not told apart: odds of 20 to 1.
constexpr double alike_score = 6;

/// What stays further off than this, in standard deviations, does not fit.
constexpr double fitting_misfit = 2.5;

/// A change must better the score of no change by so much to be worth telling.
constexpr double least_gain = 1;

bool is_in_making(Cause cause) {
  return cause != Cause::caliper && cause != Cause::stiffness && cause != Cause::creases && cause != Cause::humidity;
}

struct Sample {
  double value = 0;
  Extent extent;
};

/// Standard deviation of a reading beside any form: ruler and soft tilt. JCGM 100: independent causes add as squares.
struct Noise {
  double height_mm = 1, diameter_mm = 1;
};

class Search {
public:
  Search(const Trial& trial, const Readings& readings, const Noise& noise, Extent designed)
      : trial_(trial), readings_(readings), noise_(noise), samples_{{trial.none, designed}} {}

  std::optional<Explanation> run() {
    if (trial_.low == trial_.high) {
      const auto extent = trial_.open(trial_.low);
      return extent ? std::optional(explained({trial_.low, *extent})) : std::nullopt;
    }
    look_at(trial_.none + trial_.step);
    look_at(trial_.none - trial_.step);
    if (samples_.size() < 3) {
      look_at(trial_.none + trial_.step / 2);
    }
    for (int k = 0; k < most_refinements && samples_.size() >= 2; ++k) {
      if (!look_at(likeliest())) {
        break;
      }
    }
    return samples_.size() < 2 ? std::nullopt : std::optional(explained(best()));
  }

private:
  /// False when the value has been looked at already or no form is found there.
  bool look_at(double value) {
    value = std::clamp(trial_.whole ? std::round(value) : value, trial_.low, trial_.high);
    const double near = 1e-3 * std::abs(trial_.step);
    for (const Sample& sample : samples_) {
      if (std::abs(sample.value - value) <= near) {
        return false;
      }
    }
    const auto extent = trial_.open(value);
    if (extent) {
      samples_.push_back({value, *extent});
    }
    return extent.has_value();
  }

  double misfit(const Extent& extent) const {
    return std::hypot((extent.height_mm - readings_.height_mm) / noise_.height_mm,
                      (extent.diameter_mm - readings_.diameter_mm) / noise_.diameter_mm);
  }

  double score(const Sample& sample) const {
    const double doubt = trial_.doubt(sample.value);
    const double off = misfit(sample.extent);
    return off * off + doubt * doubt;
  }

  const Sample& best() const {
    return *std::min_element(samples_.begin() + 1, samples_.end(),
                             [this](const Sample& a, const Sample& b) { return score(a) < score(b); });
  }

  /// Parabola (or line) through the samples nearest to `value`.
  Extent between(double value) const {
    std::vector<Sample> near = samples_;
    std::stable_sort(near.begin(), near.end(), [value](const Sample& a, const Sample& b) {
      return std::abs(a.value - value) < std::abs(b.value - value);
    });
    near.resize(std::min<std::size_t>(near.size(), 3));
    Extent sum;
    for (const Sample& a : near) {
      double weight = 1;
      for (const Sample& b : near) {
        weight *= &a == &b ? 1 : (value - b.value) / (a.value - b.value);
      }
      sum.height_mm += weight * a.extent.height_mm;
      sum.diameter_mm += weight * a.extent.diameter_mm;
    }
    return sum;
  }

  /// Best value by the parabolas, no further beyond the samples than they reach.
  double likeliest() const {
    const auto [least, most] = std::minmax_element(samples_.begin(), samples_.end(),
                                                   [](const Sample& a, const Sample& b) { return a.value < b.value; });
    const double reach = most->value - least->value;
    const double low = std::max(trial_.low, least->value - reach);
    const double high = std::min(trial_.high, most->value + reach);
    double found = low;
    double lowest = 1e300;
    constexpr int steps = 400;
    for (int k = 0; k <= steps; ++k) {
      const double between_samples = low + (high - low) * k / steps;
      const double value = trial_.whole ? std::round(between_samples) : between_samples;
      const double here = score({value, between(value)});
      if (here < lowest) {
        lowest = here;
        found = value;
      }
    }
    return found;
  }

  Explanation explained(const Sample& sample) const {
    return {trial_.cause,
            sample.value,
            sample.extent.height_mm,
            sample.extent.diameter_mm,
            misfit(sample.extent),
            trial_.doubt(sample.value),
            trial_.sentence(sample.value),
            trial_.check(sample.value),
            is_in_making(trial_.cause)};
  }

  const Trial& trial_;
  const Readings& readings_;
  const Noise& noise_;
  std::vector<Sample> samples_; ///< the first as designed
};

Failure unsound(const design::Size& size, const Readings& readings, const Extent& predicted) {
  std::string sentence = "The piece is said to be " + number(readings.height_mm, 1) + " mm high and " +
                         number(readings.diameter_mm, 1) + " mm wide, and " + number(predicted.height_mm, 1) + " and " +
                         number(predicted.diameter_mm, 1) + " mm are predicted for size \"" + size.name + "\"; ";
  const double ratio = predicted.height_mm / readings.height_mm;
  sentence += ratio > 20 && ratio < 32 ? "the readings look like inches: add --units in."
                                       : "check the readings, their unit and the size.";
  return {"", sentence, false};
}

bool sound(double reading, double predicted) { return reading > 0.5 * predicted && reading < 2 * predicted; }

/// Best first, those that fit before those that do not. What is hardly better than no change at all is left out.
void rank(Comparison& comparison, double unchanged_misfit) {
  auto& list = comparison.explanations;
  std::erase_if(list, [&](const Explanation& explanation) {
    return explanation.score() > unchanged_misfit * unchanged_misfit - least_gain;
  });
  const auto fits = [](const Explanation& explanation) { return explanation.misfit <= fitting_misfit; };
  std::stable_sort(list.begin(), list.end(), [&](const Explanation& a, const Explanation& b) {
    return fits(a) != fits(b) ? fits(a) : a.score() < b.score();
  });
  comparison.alike = static_cast<int>(std::count_if(list.begin(), list.end(), [&](const Explanation& explanation) {
    return fits(explanation) && explanation.score() < list.front().score() + alike_score;
  }));
}

struct Base {
  opened::Panel panel;
  opened::Form form;
  opened::Solver solver; ///< that found it
};

std::variant<Base, Failure> opened_base(const design::Design& design, const design::Size& size,
                                        const Options& options) {
  Options quiet;
  quiet.cancelled = options.cancelled;
  auto leaf = leaf_of(design, size, quiet);
  if (const auto* failure = std::get_if<Failure>(&leaf)) {
    return *failure;
  }
  if (const double ratio = cells_of(std::get<leaf::Leaf>(leaf), size, size.leaves).most_lock_ratio;
      ratio > tolerance::most_lock)
    return Failure{size.where, lock_sentence(ratio, size.leaves), true};
  opened::Options how;
  how.cancelled = options.cancelled;
  how.mesh = false;
  Base base{opened::panel_of(std::get<leaf::Leaf>(leaf), size), {}, {}};
  auto form = base.solver.open(base.panel, how);
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    return Failure{size.where, failure->sentence, true};
  }
  base.form = std::get<opened::Form>(std::move(form));
  if (base.form.lock_ratio > tolerance::most_lock) {
    return Failure{size.where, lock_sentence(base.form.lock_ratio, size.leaves), true};
  }
  return base;
}

void explain(Comparison& comparison, const design::Size& size, Base base, const Options& options) {
  const Readings& readings = comparison.readings;
  const Noise noise{std::hypot(readings.uncertainty_mm, comparison.spread.tilt.height_mm),
                    std::hypot(readings.uncertainty_mm, comparison.spread.tilt.diameter_mm)};
  Neighbours neighbours(std::move(base.panel), std::move(base.form), options.cancelled, std::move(base.solver));
  const std::vector<Trial> list = trials(neighbours, size);
  double done = 0;
  for (const Trial& trial : list) {
    if (auto found = Search(trial, readings, noise, neighbours.designed()).run()) {
      comparison.explanations.push_back(*std::move(found));
    }
    if (options.progress) {
      options.progress(0.2 + 0.8 * ++done / static_cast<double>(list.size()));
    }
  }
  rank(comparison, std::hypot((comparison.height_mm - readings.height_mm) / noise.height_mm,
                              (comparison.diameter_mm - readings.diameter_mm) / noise.diameter_mm));
}

} // namespace

std::variant<Comparison, Failure> compare(const design::Design& design, const design::Size& size,
                                          const Readings& readings, const Options& options) {
  auto opened = opened_base(design, size, options);
  if (const auto* failure = std::get_if<Failure>(&opened)) {
    return *failure;
  }
  Base& base = std::get<Base>(opened);
  Comparison comparison;
  comparison.readings = readings;
  comparison.height_mm = base.form.height_mm;
  comparison.diameter_mm = base.form.diameter_mm;
  if (!sound(readings.height_mm, base.form.height_mm) || !sound(readings.diameter_mm, base.form.diameter_mm)) {
    return unsound(size, readings, {base.form.height_mm, base.form.diameter_mm});
  }
  opened::Options how;
  how.cancelled = options.cancelled;
  const auto spread = opened::spread(base.panel, base.form, how);
  if (const auto* failure = std::get_if<opened::Failure>(&spread)) {
    return Failure{size.where, failure->sentence, true};
  }
  comparison.spread = std::get<opened::Spread>(spread);
  const auto within = [&](double difference, double half_width) {
    return std::abs(difference) <= half_width + readings.uncertainty_mm;
  };
  comparison.as_predicted = within(readings.height_mm - base.form.height_mm, comparison.spread.height_mm) &&
                            within(readings.diameter_mm - base.form.diameter_mm, comparison.spread.diameter_mm);
  if (!comparison.as_predicted) {
    explain(comparison, size, std::move(base), options);
  }
  if (options.cancelled && options.cancelled()) {
    return Failure{"", "Stopped before the comparison was complete.", false};
  }
  return comparison;
}

std::variant<Correction, Failure> corrected(const design::Design& design, const design::Size& size,
                                            const Comparison& comparison, const Wanted& wanted,
                                            const Options& options) {
  const auto outline = leaf::silhouette(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&outline)) {
    return Failure{refusal->where, refusal->sentence, false};
  }
  const leaf::Ring ring = leaf::flatten(std::get<leaf::Silhouette>(outline).outline, leaf::flatten_tolerance_mm);
  const auto [lowest, highest] =
      std::minmax_element(ring.begin(), ring.end(), [](const auto& a, const auto& b) { return a.z < b.z; });
  const double height = size.height_mm.value_or(highest->z - lowest->z);
  // How the prototype came out beside its prediction, which is taken to repeat.
  const double taller = comparison.readings.height_mm / comparison.height_mm;
  const double wider = comparison.readings.diameter_mm / comparison.diameter_mm;
  Correction correction;
  correction.scale =
      wanted.height_mm ? *wanted.height_mm / comparison.readings.height_mm
                       : wanted.diameter_mm.value_or(comparison.readings.diameter_mm) / comparison.readings.diameter_mm;
  design::Size other = size;
  constexpr int rounds = 3; // the extent is nearly in proportion to the scale
  for (int k = 0; k < rounds; ++k) {
    other.height_mm = height * correction.scale;
    auto opened = opened_base(design, other, options);
    if (const auto* failure = std::get_if<Failure>(&opened)) {
      return *failure;
    }
    const opened::Form& form = std::get<Base>(opened).form;
    correction.height_mm = *other.height_mm;
    correction.predicted_height_mm = form.height_mm;
    correction.predicted_diameter_mm = form.diameter_mm;
    correction.expected_height_mm = form.height_mm * taller;
    correction.expected_diameter_mm = form.diameter_mm * wider;
    const double miss = wanted.height_mm ? *wanted.height_mm / correction.expected_height_mm
                                         : wanted.diameter_mm.value_or(0) / correction.expected_diameter_mm;
    if (std::abs(miss - 1) < 2e-4 || k + 1 == rounds) {
      break;
    }
    correction.scale *= miss;
  }
  correction.scale = correction.height_mm / height;
  return correction;
}

} // namespace fanwright::fit
