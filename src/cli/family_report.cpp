#include "cli/family_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

Json size_json(const ProposedSize& proposed) {
  const fit::Proposal& proposal = proposed.proposal;
  Json reasons = Json::object();
  for (const fit::Reason& reason : proposal.reasons) {
    reasons[reason.what] = reason.sentence;
  }
  return {{"name", proposal.size.name},
          {"flat_width_mm", rounded(proposal.flat_width_mm, 2)},
          {"flat_height_mm", rounded(proposal.flat_height_mm, 2)},
          {"leaves", proposal.size.leaves},
          {"rows", proposal.leaf.rows.size()},
          {"row_spacing_mm", rounded(proposal.row_spacing_mm, 2)},
          {"grammage", rounded(proposal.size.paper.grammage_gsm, 1)},
          {"caliper_mm", rounded(proposal.size.paper.caliper_mm, 4)},
          {"sag", rounded(proposal.sag, 3)},
          {"height_mm", rounded(proposal.height_mm, 2)},
          {"diameter_mm", rounded(proposal.diameter_mm, 2)},
          {"lock_ratio", rounded(proposal.lock_ratio, 3)},
          {"holding_moment_Nmm", rounded(proposal.holding_moment_nmm, 1)},
          {"sheet", proposal.size.sheet.name},
          {"sheets", proposed.sheets > 0 ? Json(proposed.sheets) : Json(nullptr)},
          {"paper_g", rounded(proposed.paper_g, 1)},
          {"reasons", std::move(reasons)}};
}

std::string line(const ProposedSize& proposed, std::size_t widest) {
  const fit::Proposal& proposal = proposed.proposal;
  const std::string flat = fmt::format("{:.0f} x {:.0f}", proposal.flat_width_mm, proposal.flat_height_mm);
  const std::string opened = fmt::format("{:.1f} x {:.1f}", proposal.height_mm, proposal.diameter_mm);
  const std::string sheets =
      proposed.sheets > 0 ? fmt::format("{} {}", proposed.sheets, proposal.size.sheet.name) : "too large";
  return fmt::format("{:<{}}  {:>6}  {:>2} x {:4.1f}  {:>3.0f} g/m2  {:>9}  {:>13}  {:4.2f}  {:>12}  {:5.0f} g\n",
                     proposal.size.name, widest, proposal.size.leaves, proposal.leaf.rows.size(),
                     proposal.row_spacing_mm, proposal.size.paper.grammage_gsm, flat, opened, proposal.lock_ratio,
                     sheets, proposed.paper_g);
}

} // namespace

std::string family_json(const std::string& title, const std::vector<ProposedSize>& sizes,
                        const std::string& sizes_entry) {
  Json list = Json::array();
  for (const ProposedSize& size : sizes) {
    list.push_back(size_json(size));
  }
  const Json report = {{"title", title}, {"proposals", std::move(list)}, {"sizes", Json::parse(sizes_entry)}};
  return report.dump(1) + "\n";
}

std::string family_text(const std::string& title, const std::string& from, const std::vector<ProposedSize>& sizes) {
  std::size_t widest = 4;
  for (const ProposedSize& size : sizes) {
    widest = std::max(widest, size.proposal.size.name.size());
  }
  std::string text = fmt::format("{}, a family that goes by \"{}\"\n\n", title, from);
  text += fmt::format("{:<{}}  leaves  rows, mm   paper     flat leaf    opened, mm  lock        sheets   paper\n",
                      "size", widest);
  for (const ProposedSize& size : sizes) {
    text += line(size, widest);
  }
  text += "\nflat leaf: width x height of the unfolded leaf; opened: height x diameter; paper: weight of all leaves\n";
  for (const ProposedSize& size : sizes) {
    text += fmt::format("\n{}\n", size.proposal.size.name);
    for (const fit::Reason& reason : size.proposal.reasons) {
      text += fmt::format("  {}: {}.\n", reason.what, reason.sentence);
    }
  }
  return text;
}

} // namespace fanwright::cli
