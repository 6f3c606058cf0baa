#include "cli/droop_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <string>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

double significant(double value, int digits) { return std::stod(fmt::format("{:.{}g}", value, digits)); }

constexpr int digits = 5;

std::string heading(const PaperAtHand& paper) {
  const DroopInput& input = paper.input;
  std::string text = fmt::format("Paper of {:.4g} g/m2{}\n", input.grammage_gsm, input.weighed ? " (weighed)" : "");
  if (input.stack)
    text += fmt::format("Thickness {:.3f} mm +-{:.0f} % ({} {} of {:.4g} mm), {} ({:.3f} mm)\n", paper.caliper_mm,
                        100 * input.stack->uncertainty(), input.stack->sheets,
                        input.stack->sheets == 1 ? "sheet" : "sheets in a stack", input.stack->height_mm,
                        caliper_in_words(paper), paper.usual_caliper_mm);
  else
    text += fmt::format("Thickness not measured; usual is {:.3f} mm\n", paper.caliper_mm);
  return text;
}

std::string line_of(const char* name, const DirectionAtHand& direction) {
  return fmt::format("{:<8}{:>19}{:>15}{:>12}{:>17}   {}\n", name,
                     fmt::format("{:.3g} mN m +-{:.0f} %", direction.stiffness_mnm, 100 * direction.uncertainty),
                     fmt::format("{:.3g} mN m", direction.usual_mnm),
                     fmt::format("{:.2f} GPa", direction.modulus_mpa / 1000),
                     fmt::format("{:.0f} mm", direction.length_mm),
                     direction.measured ? stiffness_in_words(direction) : "estimated, not measured");
}

std::string readings_of(const char* name, const DirectionAtHand& direction) {
  std::string text;
  if (direction.measured)
    for (const auto& one : direction.measured->readings)
      text += fmt::format(
          "{:<7}  {:5.1f} mm over the edge, tip {:5.1f} mm down ({:4.1f} degrees): {:.3g} mN m +-{:.0f} %\n", name,
          one.reading.overhang_mm, one.drop_mm, one.chord_deg, one.stiffness_mnm, 100 * one.uncertainty);
  return text;
}

Json readings_json(const paper::MeasuredStiffness& measured) {
  Json list = Json::array();
  for (const auto& one : measured.readings)
    list.push_back({{"overhang_mm", significant(one.reading.overhang_mm, digits)},
                    {"drop_mm", significant(one.drop_mm, digits)},
                    {"chord_deg", significant(one.chord_deg, digits)},
                    {"bending_length_mm", significant(one.length_mm, digits)},
                    {"stiffness_mNm", significant(one.stiffness_mnm, digits)},
                    {"uncertainty", significant(one.uncertainty, 2)}});
  return list;
}

Json direction_json(const DirectionAtHand& direction) {
  return {{"measured", direction.measured.has_value()},
          {"stiffness_mNm", significant(direction.stiffness_mnm, digits)},
          {"uncertainty", significant(direction.uncertainty, 2)},
          {"bending_length_mm", significant(direction.length_mm, digits)},
          {"modulus_MPa", significant(direction.modulus_mpa, digits)},
          {"usual_stiffness_mNm", significant(direction.usual_mnm, digits)},
          {"compared", stiffness_in_words(direction)},
          {"spread", direction.measured ? Json(significant(direction.measured->spread, 3)) : Json(nullptr)},
          {"readings", direction.measured ? readings_json(*direction.measured) : Json::array()}};
}

std::string written_to(const DroopTarget& target) {
  std::string text =
      fmt::format("\nWritten into {}{}.\n", target.file, target.size.empty() ? "" : ", size \"" + target.size + "\"");
  for (const auto& size : target.other)
    text += fmt::format("Size \"{}\" keeps the other paper it is made of; to change it too, add --size \"{}\".\n", size,
                        size);
  return text;
}

} // namespace

std::string droop_text(const PaperAtHand& paper, double units_to_mm, const DroopTarget& target) {
  std::string text = heading(paper) + "\n";
  text += fmt::format("{:<8}{:>19}{:>15}{:>12}{:>17}   {}\n", "grain", "stiffness", "usually", "modulus",
                      "bending length", "this paper is");
  text += line_of("along", paper.along) + line_of("across", paper.across) + "\n";
  text += readings_of("along", paper.along) + readings_of("across", paper.across);
  if (!paper.notes.empty())
    text += "\n";
  for (const auto& note : paper.notes)
    text += "Note: " + note + "\n";
  text += fmt::format("\nFor a design file{}:\n\n  \"paper\": {}\n", units_to_mm == 1 ? "" : " in inches",
                      paper_text(paper.entry, units_to_mm));
  return target.file.empty() ? text : text + written_to(target);
}

std::string droop_json(const PaperAtHand& paper, double units_to_mm, const DroopTarget& target) {
  const DroopInput& input = paper.input;
  const Json report = {
      {"grammage_gsm", significant(input.grammage_gsm, digits)},
      {"grammage_uncertainty", significant(input.errors.grammage_share, 2)},
      {"caliper_mm", significant(paper.caliper_mm, digits)},
      {"caliper_uncertainty", input.stack ? Json(significant(input.stack->uncertainty(), 2)) : Json(nullptr)},
      {"usual_caliper_mm", significant(paper.usual_caliper_mm, digits)},
      {"along", direction_json(paper.along)},
      {"across", direction_json(paper.across)},
      {"notes", paper.notes},
      {"paper", Json::parse(paper_text(paper.entry, units_to_mm))},
      {"written_into", target.file.empty() ? Json(nullptr) : Json(target.file)}};
  return report.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace fanwright::cli
