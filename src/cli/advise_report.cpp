#include "cli/advise_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
#include <utility>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

Json number_or_null(const std::optional<double>& value, int decimals) {
  return value ? Json(rounded(*value, decimals)) : Json(nullptr);
}

Json look_json(const fit::Opened& look, const Hours& hours) {
  const fit::Cells& cells = look.cells;
  return {{"leaves", cells.leaves},
          {"present", look.present},
          {"cell_width_mm", rounded(cells.width_mm, 2)},
          {"cell_height_mm", rounded(cells.height_mm, 2)},
          {"lock_ratio", rounded(cells.lock_ratio, 3)},
          {"most_lock_ratio", rounded(cells.most_lock_ratio, 3)},
          {"cells", fit::words_for(fit::openness_of(cells.lock_ratio))},
          {"cells_per_dm2", rounded(cells.per_dm2, 1)},
          {"hub_radius_mm", rounded(cells.hub_radius_mm, 2)},
          {"stack_mm", rounded(cells.stack_mm, 1)},
          {"height_mm", number_or_null(look.height_mm, 2)},
          {"diameter_mm", number_or_null(look.diameter_mm, 2)},
          {"holding_moment_Nmm", number_or_null(look.moment_nmm, 1)},
          {"seam_N_per_mm", number_or_null(look.seam_n_per_mm, 4)},
          {"hands_on_h", rounded(hours.hands_on, 2)},
          {"finished_after_h", rounded(hours.finished, 2)}};
}

Json size_json(const AdvisedSize& advised) {
  const fit::Advice& advice = advised.advice;
  Json looks = Json::array();
  for (std::size_t k = 0; k < advice.looks.size(); ++k) {
    looks.push_back(look_json(advice.looks[k], advised.hours[k]));
  }
  return {{"name", advised.size.name},
          {"flat_height_mm", rounded(advice.body.height_mm, 2)},
          {"flat_radius_mm", rounded(advice.body.radius_mm, 2)},
          {"leaves",
           {{"low", advice.leaves.low},
            {"usual", advice.leaves.usual},
            {"high", advice.leaves.high},
            {"present", advised.size.leaves},
            {"low_reason", advice.leaves.low_reason},
            {"high_reason", advice.leaves.high_reason}}},
          {"rows",
           {{"low", advice.rows.low},
            {"usual", advice.rows.usual},
            {"high", advice.rows.high},
            {"present", advice.leaf.rows.size()},
            {"spacing_mm", rounded(advice.rows.spacing_mm, 2)},
            {"reason", advice.rows.reason}}},
          {"grammage",
           {{"low", advice.paper.low_gsm},
            {"usual", advice.paper.usual_gsm},
            {"high", advice.paper.high_gsm},
            {"present", advised.size.paper.grammage_gsm},
            {"reason", advice.paper.reason}}},
          {"looks", std::move(looks)}};
}

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

std::string size_text(const std::string& title, const AdvisedSize& advised) {
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

std::string advise_json(const std::string& title, const std::vector<AdvisedSize>& sizes) {
  Json list = Json::array();
  for (const AdvisedSize& size : sizes) {
    list.push_back(size_json(size));
  }
  const Json report = {{"title", title}, {"sizes", std::move(list)}};
  return report.dump(1) + "\n";
}

std::string advise_text(const std::string& title, const std::vector<AdvisedSize>& sizes) {
  std::string text;
  for (const AdvisedSize& size : sizes) {
    text += size_text(title, size) + "\n";
  }
  text += "* as in the file, with its own rows. cell: width x height at the widest place; per dm2: cells on 10 x 10 cm "
          "there;\nhub: radius of the hole, mm; stack: closed thickness, mm; moment: what holds it open, N mm; hands: "
          "hours of work for one piece\n";
  return text;
}

} // namespace fanwright::cli
