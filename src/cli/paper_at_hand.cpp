#include "cli/paper_at_hand.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace fanwright::cli {
namespace {

constexpr double spread_of_papers = 0.3;  // papers of one grammage differ by this share; see src/paper/paper.cpp
constexpr double curled_spread = 0.25;    // readings of a flat strip differ less; common practice, no source
constexpr double doubtful_ratio = 3;      // to the usual stiffness; more likely a slip of the pen than a paper
constexpr double poor_reading = 0.15;     // beyond this a longer overhang is worth the while
constexpr double poor_caliper = 0.08;     // the modulus is off by three times as much
constexpr double well_read_number = 4.92; // droop number of a chord of 30 degrees, where c / O changes fast enough

double percent(double share) { return 100 * share; }

/// All readings of one direction; the sentence names the option and which of its readings is wrong.
std::variant<std::optional<paper::MeasuredStiffness>, std::string>
measured(const char* option, const std::vector<paper::DroopReading>& readings, const DroopInput& input) {
  std::vector<paper::Bending> bendings;
  for (const auto& reading : readings) {
    auto bending = paper::bending_of(reading, input.grammage_gsm, input.errors);
    if (const auto* sentence = std::get_if<std::string>(&bending))
      return fmt::format("{}, reading {}: {}", option, bendings.size() + 1, *sentence);
    bendings.push_back(std::get<paper::Bending>(std::move(bending)));
  }
  if (bendings.empty())
    return std::optional<paper::MeasuredStiffness>();
  return std::optional(paper::mean_of(std::move(bendings), input.grammage_gsm, input.errors));
}

void take(DirectionAtHand& direction, std::optional<paper::MeasuredStiffness> readings) {
  if (readings) {
    direction.stiffness_mnm = readings->stiffness_mnm;
    direction.length_mm = readings->length_mm;
    direction.uncertainty = readings->uncertainty;
  }
  direction.measured = std::move(readings);
}

/// Fills in a direction that was not measured: the ratio of both is that of the usual paper.
void estimate(DirectionAtHand& missing, const DirectionAtHand& known) {
  const double ratio = missing.usual_mnm / known.usual_mnm;
  missing.stiffness_mnm = ratio * known.stiffness_mnm;
  missing.length_mm = std::cbrt(ratio) * known.length_mm;
  missing.uncertainty = std::hypot(known.uncertainty, spread_of_papers);
}

void note_direction(const DirectionAtHand& direction, const std::string& name, std::vector<std::string>& notes) {
  if (!direction.measured) {
    notes.push_back(fmt::format("The stiffness {} the grain was not measured but estimated from the other direction as "
                                "in a usual paper; cut a strip {} the grain too.",
                                name, name));
    return;
  }
  const paper::MeasuredStiffness& readings = *direction.measured;
  if (readings.readings.size() == 1)
    notes.push_back(fmt::format("There is one reading {} the grain; turn the strip over and read again, so that its "
                                "curl averages out.",
                                name));
  if (readings.spread > curled_spread)
    notes.push_back(fmt::format("The readings {} the grain differ by {:.0f} %: the strip is curled; flatten it under "
                                "books and read both faces equally often.",
                                name, percent(readings.spread)));
  const double ratio = direction.stiffness_mnm / direction.usual_mnm;
  if (ratio > doubtful_ratio || ratio < 1 / doubtful_ratio)
    notes.push_back(fmt::format("The stiffness {} the grain is {:.2g} times the usual one, which few papers are; check "
                                "the readings, their unit and the weight of the paper.",
                                name, ratio));
  double reading_error = 0;
  for (const auto& one : readings.readings)
    reading_error = std::max(reading_error, one.uncertainty);
  if (reading_error > poor_reading)
    notes.push_back(fmt::format(
        "A reading {} the grain is good to {:.0f} % only; this paper is best read with about {:.0f} "
        "mm over the edge.",
        name, percent(reading_error), std::round(direction.length_mm * std::cbrt(well_read_number) / 10) * 10));
}

void note_paper(PaperAtHand& paper) {
  note_direction(paper.along, "along", paper.notes);
  note_direction(paper.across, "across", paper.notes);
  if (paper.along.measured && paper.across.measured && paper.across.stiffness_mnm > paper.along.stiffness_mnm)
    paper.notes.emplace_back("The strip cut across the grain came out stiffer than the one cut along it; paper is "
                             "stiffer along its grain, so the strips may have been exchanged.");
  if (!paper.input.stack)
    paper.notes.emplace_back("The thickness was not measured; the modulus rests on what is usual for the weight, so "
                             "measure a stack of ten and give --stack.");
  else if (paper.input.stack->uncertainty() > poor_caliper)
    paper.notes.push_back(
        fmt::format("A stack of {:.4g} mm gives the thickness to {:.0f} % only; measure a thicker one and "
                    "say how many with --sheets.",
                    paper.input.stack->height_mm, percent(paper.input.stack->uncertainty())));
  if (paper.input.weighed && paper.input.errors.grammage_share > 0.1)
    paper.notes.push_back(fmt::format("A kitchen scale gives this weight to {:.0f} % only; weigh ten sheets together.",
                                      percent(paper.input.errors.grammage_share)));
}

PaperAtHand beside_usual(const DroopInput& input) {
  const paper::Paper usual = paper::typical_paper(input.grammage_gsm);
  PaperAtHand paper{.input = input,
                    .caliper_mm = input.stack ? input.stack->caliper_mm() : usual.caliper_mm,
                    .usual_caliper_mm = usual.caliper_mm,
                    .along = {},
                    .across = {},
                    .entry = {},
                    .notes = {}};
  paper.along.usual_mnm = paper::stiffness_from_modulus(usual.modulus_along_mpa, usual.caliper_mm);
  paper.across.usual_mnm = paper::stiffness_from_modulus(usual.modulus_across_mpa, usual.caliper_mm);
  return paper;
}

} // namespace

std::variant<PaperAtHand, std::string> paper_at_hand(const DroopInput& input) {
  PaperAtHand paper = beside_usual(input);
  for (const auto& [option, readings, direction] :
       {std::tuple("--along", &input.along, &paper.along), std::tuple("--across", &input.across, &paper.across)}) {
    auto found = measured(option, *readings, input);
    if (const auto* sentence = std::get_if<std::string>(&found))
      return *sentence;
    take(*direction, std::get<0>(std::move(found)));
  }
  if (!paper.along.measured)
    estimate(paper.along, paper.across);
  if (!paper.across.measured)
    estimate(paper.across, paper.along);
  for (DirectionAtHand* direction : {&paper.along, &paper.across})
    direction->modulus_mpa = paper::modulus_from_stiffness(direction->stiffness_mnm, paper.caliper_mm);
  paper.entry = {.grammage_gsm = input.grammage_gsm,
                 .caliper_mm = input.stack ? std::optional(paper.caliper_mm) : std::nullopt,
                 .along_mnm = paper.along.stiffness_mnm,
                 .across_mnm = paper.across.stiffness_mnm};
  if (!can_be_paper(paper.entry))
    return fmt::format("The readings mean a stiffness of {:.3g} mN m along and {:.3g} across the grain, which no paper "
                       "{:.3g} mm thick has; check the readings, their unit, the weight and the stack.",
                       paper.along.stiffness_mnm, paper.across.stiffness_mnm, paper.caliper_mm);
  note_paper(paper);
  return paper;
}

std::string stiffness_in_words(const DirectionAtHand& direction) {
  const double ratio = direction.stiffness_mnm / direction.usual_mnm;
  if (ratio > 2)
    return "much stiffer than usual";
  if (ratio > 1 + spread_of_papers)
    return "stiffer than usual";
  if (ratio < 0.5)
    return "much softer than usual";
  return ratio < 1 / (1 + spread_of_papers) ? "softer than usual" : "about as usual";
}

std::string caliper_in_words(const PaperAtHand& paper) {
  constexpr double bulk_spread = 0.15; // between smooth and textured papers of one weight; common practice, no source
  const double ratio = paper.caliper_mm / paper.usual_caliper_mm;
  if (ratio > 1 + bulk_spread)
    return "thicker than usual";
  return ratio < 1 / (1 + bulk_spread) ? "thinner than usual" : "about as usual";
}

} // namespace fanwright::cli
