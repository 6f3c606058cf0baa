#include "cli/compare_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;
using fit::Cause;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

const char* word_for(Cause cause) {
  switch (cause) {
  case Cause::fitted_to_page:
    return "fitted to page";
  case Cause::cut_scale:
    return "cut scale";
  case Cause::stencil_scale:
    return "stencil scale";
  case Cause::moved_rows:
    return "rows moved, mm up";
  case Cause::wide_glue:
    return "glue wider, mm";
  case Cause::leaf_count:
    return "leaves";
  case Cause::opening:
    return "opening, degrees";
  case Cause::caliper:
    return "caliper, mm";
  case Cause::stiffness:
    return "bending stiffness, factor";
  case Cause::creases:
    return "creases, share";
  case Cause::humidity:
    return "relative humidity, % more";
  }
  return "";
}

Json explanation_json(const fit::Explanation& explanation) {
  return {{"input", word_for(explanation.cause)},
          {"value", rounded(explanation.value, 4)},
          {"height_mm", rounded(explanation.height_mm, 2)},
          {"diameter_mm", rounded(explanation.diameter_mm, 2)},
          {"misfit", rounded(explanation.misfit, 2)},
          {"doubt", rounded(explanation.doubt, 2)},
          {"sentence", explanation.sentence},
          {"check", explanation.check}};
}

/// Lengths in the unit of the readings.
class Lengths {
public:
  explicit Lengths(double unit_mm) : unit_mm_(unit_mm) {}
  std::string plain(double mm) const { return fmt::format("{:.{}f}", mm / unit_mm_, decimals()); }
  std::string operator()(double mm) const { return plain(mm) + (unit_mm_ == 1 ? " mm" : " in"); }

private:
  int decimals() const { return unit_mm_ == 1 ? 1 : 2; }
  double unit_mm_;
};

std::string measured_line(const char* what, double reading, double predicted, double half_width,
                          const Lengths& length) {
  const double difference = reading - predicted;
  const std::string line = fmt::format("{:<9} predicted {} +- {}, measured {}: ", what, length.plain(predicted),
                                       length(half_width), length(reading));
  if (length.plain(reading) == length.plain(predicted))
    return line + "as predicted\n";
  return line + fmt::format("{} {} ({:+.1f} %)\n", length(std::abs(difference)), difference < 0 ? "less" : "more",
                            100 * difference / predicted);
}

std::string entry(int number, const fit::Explanation& explanation, const Lengths& length) {
  return fmt::format("{}. {}\n   That would make it {} high and {} wide. To find out: {}.\n", number,
                     explanation.sentence, length(explanation.height_mm), length(explanation.diameter_mm),
                     explanation.check);
}

std::string explanations_text(const fit::Comparison& comparison, const Lengths& length) {
  if (comparison.as_predicted) {
    return "As predicted: both lie within what paper, creases and handling may do.\n";
  }
  if (comparison.alike == 0) {
    std::string text = "No single input explains both readings; two things may have come together. Measure again, then "
                       "look at a flat leaf, the leaf count and the paper.\n";
    if (!comparison.explanations.empty()) {
      text += "Nearest:\n" + entry(1, comparison.explanations.front(), length);
    }
    return text;
  }
  std::string text = "Most likely:\n";
  constexpr int most_told = 5;
  for (int k = 0; k < std::min(comparison.alike, most_told); ++k) {
    if (k == 1) {
      text += "Height and diameter alone cannot tell it from:\n";
    }
    text += entry(k + 1, comparison.explanations[static_cast<std::size_t>(k)], length);
  }
  return text;
}

std::string correction_text(const ComparedSize& compared, const Lengths& length) {
  const fit::Correction& correction = *compared.correction;
  const fit::Comparison& comparison = compared.comparison;
  std::string text = fmt::format(
      "\nCorrected: height {} in the file ({:.2f} %). If the next piece differs from its prediction as this "
      "one did,\nit will be {} high and {} wide; by the file alone {} and {}.\n",
      length(correction.height_mm), 100 * correction.scale, length(correction.expected_height_mm),
      length(correction.expected_diameter_mm), length(correction.predicted_height_mm),
      length(correction.predicted_diameter_mm));
  if (comparison.alike > 0 && comparison.explanations.front().in_making) {
    text += "But the most likely reason lies in the making: mend that first, and the design needs no change.\n";
  }
  return text;
}

} // namespace

std::string compare_json(const ComparedSize& compared) {
  const fit::Comparison& comparison = compared.comparison;
  Json explanations = Json::array();
  for (const fit::Explanation& explanation : comparison.explanations) {
    explanations.push_back(explanation_json(explanation));
  }
  Json report = {{"title", compared.title},
                 {"size", compared.name},
                 {"predicted",
                  {{"height_mm", rounded(comparison.height_mm, 2)},
                   {"height_spread_mm", rounded(comparison.spread.height_mm, 2)},
                   {"diameter_mm", rounded(comparison.diameter_mm, 2)},
                   {"diameter_spread_mm", rounded(comparison.spread.diameter_mm, 2)}}},
                 {"measured",
                  {{"height_mm", rounded(comparison.readings.height_mm, 2)},
                   {"diameter_mm", rounded(comparison.readings.diameter_mm, 2)}}},
                 {"as_predicted", comparison.as_predicted},
                 {"alike", comparison.alike},
                 {"explanations", std::move(explanations)}};
  if (compared.correction) {
    report["corrected"] = {{"height_mm", rounded(compared.correction->height_mm, 2)},
                           {"scale", rounded(compared.correction->scale, 5)},
                           {"expected_height_mm", rounded(compared.correction->expected_height_mm, 2)},
                           {"expected_diameter_mm", rounded(compared.correction->expected_diameter_mm, 2)}};
  }
  return report.dump(1) + "\n";
}

std::string compare_text(const ComparedSize& compared) {
  const fit::Comparison& comparison = compared.comparison;
  const Lengths length(compared.unit_mm);
  std::string text = fmt::format("{}, {}\n", compared.title, compared.name);
  text += measured_line("Height:", comparison.readings.height_mm, comparison.height_mm, comparison.spread.height_mm,
                        length);
  text += measured_line("Diameter:", comparison.readings.diameter_mm, comparison.diameter_mm,
                        comparison.spread.diameter_mm, length);
  text += "\n" + explanations_text(comparison, length);
  return compared.correction ? text + correction_text(compared, length) : text;
}

} // namespace fanwright::cli
