#include "cli/advise_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <optional>
#include <utility>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;
using studio::Hours;

/// How hard it is to hold open, by the pull on the seam; the classes are our own.
std::string effort(const std::optional<double>& seam_n_per_mm) {
  if (!seam_n_per_mm) {
    return "does not open";
  }
  if (*seam_n_per_mm < 0.05) {
    return "light";
  }
  return *seam_n_per_mm < 0.5 ? "firm" : *seam_n_per_mm < 2 ? "strong" : "very strong";
}

std::string look_line(const fit::Opened& look, const Hours& hours) {
  const fit::Cells& cells = look.cells;
  return fmt::format("{:>6}{} {:5.1f} x {:4.1f}  {:4.2f}  {:<30} {:7.0f}  {:4.1f}  {:5.1f}  {:>8}  {:<13} {:5.1f} h\n",
                     cells.leaves, look.present ? "*" : " ", cells.width_mm, cells.height_mm, cells.lock_ratio,
                     fit::words_for(fit::openness_of(cells.lock_ratio)), cells.per_dm2, cells.hub_radius_mm,
                     cells.stack_mm, look.moment_nmm ? fmt::format("{:.0f}", *look.moment_nmm) : "-",
                     effort(look.seam_n_per_mm), hours.hands_on);
}

std::string size_text(const std::string& title, const studio::Advised& advised) {
  const fit::Advice& advice = advised.advice;
  const fit::LeafAdvice& leaves = advice.leaves;
  std::string text = fmt::format("{}, {} (leaf {:.0f} mm high, {:.0f} mm from spine to edge where it is widest)\n\n",
                                 title, advised.size.name, advice.body.height_mm, advice.body.radius_mm);
  text += fmt::format("Leaves: {} to {}, usually {}; the file has {}.\n", leaves.low, leaves.high, leaves.usual,
                      advised.size.leaves);
  text += fmt::format("  At least {}: {}.\n  At most {}: {}.\n", leaves.low, leaves.low_reason, leaves.high,
                      leaves.high_reason);
  text +=
      fmt::format("Glue rows: {} to {}, usually {}; the file has {}.\n  {} rows: {}.\n", advice.rows.low,
                  advice.rows.high, advice.rows.usual, advice.leaf.rows.size(), advice.rows.usual, advice.rows.reason);
  text += fmt::format("Paper: {:.0f} to {:.0f} g/m2, usually {:.0f}; the file has {:.0f}.\n  {:.0f} g/m2: {}.\n\n",
                      advice.paper.low_gsm, advice.paper.high_gsm, advice.paper.usual_gsm,
                      advised.size.paper.grammage_gsm, advice.paper.usual_gsm, advice.paper.reason);
  text += "leaves   cell, mm     lock  look                           per dm2   hub  stack    moment  to hold open   "
          "hands\n";
  for (std::size_t k = 0; k < advice.looks.size(); ++k) {
    text += look_line(advice.looks[k], advised.hours[k]);
  }
  return text;
}

} // namespace

std::string advise_json(const std::string& title, const std::vector<studio::Advised>& sizes) {
  Json list = Json::array();
  for (const studio::Advised& size : sizes) {
    list.push_back(Json::parse(studio::json_of(size)));
  }
  const Json report = {{"title", title}, {"sizes", std::move(list)}};
  return report.dump(1) + "\n";
}

std::string advise_text(const std::string& title, const std::vector<studio::Advised>& sizes) {
  std::string text;
  for (const studio::Advised& size : sizes) {
    text += size_text(title, size) + "\n";
  }
  text += "* as in the file, with its own rows. cell: width x height at the widest place; per dm2: cells on 10 x 10 cm "
          "there;\nhub: radius of the hole, mm; stack: closed thickness, mm; moment: what holds it open, N mm; hands: "
          "hours of work for one piece\n";
  return text;
}

} // namespace fanwright::cli
