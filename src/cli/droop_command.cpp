#include "cli/droop_command.h"

#include "cli/design_file.h"
#include "cli/droop_report.h"
#include "cli/paper_at_hand.h"
#include "cli/paper_entry.h"
#include "cli/terminal.h"
#include "studio/whole_file.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <variant>

namespace fanwright::cli {
namespace {

constexpr double inch_mm = 25.4;

bool made_of(const paper::Paper& paper, const PaperEntry& entry) {
  constexpr double rounding = 1e-3; // the entry is written with four digits
  const double along = paper::stiffness_from_modulus(paper.modulus_along_mpa, paper.caliper_mm);
  return std::abs(paper.grammage_gsm / entry.grammage_gsm - 1) < rounding &&
         std::abs(along / entry.along_mnm - 1) < rounding;
}

/// Sizes that do not follow the family's new paper.
std::vector<std::string> other_sizes(const std::string& text, const PaperEntry& entry) {
  std::vector<std::string> names;
  const auto parsed = design::parse(text);
  for (const auto& size : std::get<design::Design>(parsed).sizes)
    if (!made_of(size.paper, entry))
      names.push_back(size.name);
  return names;
}

/// Writes the paper into the design file or its copy; nothing, the complaint made, when that fails. `units_to_mm`
/// becomes that of the file.
std::optional<DroopTarget> write_paper(const DroopRequest& request, const PaperEntry& entry, double& units_to_mm) {
  const auto read = read_design_file(request.paper_into);
  if (!read)
    return std::nullopt;
  const auto changed = with_paper(read->text, read->design, request.size, entry);
  if (const auto* refusal = std::get_if<design::Refusal>(&changed)) {
    complain_about(request.paper_into, *refusal);
    return std::nullopt;
  }
  const std::string& text = std::get<std::string>(changed);
  DroopTarget target{request.out.empty() ? request.paper_into : request.out, request.size, {}};
  if (request.size.empty())
    target.other = other_sizes(text, entry);
  if (const auto sentence = studio::write_whole(target.file, text)) {
    complain(*sentence);
    return std::nullopt;
  }
  units_to_mm = read->design.units_to_mm;
  return target;
}

std::optional<std::string> fault_of(const DroopRequest& request) {
  if (request.paper_into.empty() && !(request.out.empty() && request.size.empty()))
    return "--out and --size say where in a design file the paper goes; name the file with --paper-into.";
  if (request.stack.empty() && request.sheets != "10")
    return "--sheets says how many sheets are in the stack; give the height of the stack with --stack.";
  return std::nullopt;
}

} // namespace

const char* const droop_how_to =
    R"(How to: cut two strips 25 mm wide and as long as the sheet, one along the grain, one
across it. Lay a strip flat on a table so that an end hangs over the edge, and a ruler
on it flush with the edge. Measure how much hangs over (along the strip) and how far
the tip is below the table top. Turn the strip over, turn it end for end, and read
again: up to four readings. The tip should drop by a quarter to a half of the overhang.

Example: 200 mm over the edge, tip 68 and 61 mm down; across the grain 150 mm, 40 mm;
ten sheets are 2.1 mm thick:
  fanwright droop --grammage 160 --along 200:68 --along 200:61 --across 150:40 --stack 2.1

Numbers may be written 67.8 or 67,8; lengths may have a unit: 67.8mm, 6.78cm, 2.67in.)";

int run_droop(const DroopRequest& request) {
  if (const auto fault = fault_of(request)) {
    complain(*fault);
    return Exit::refused;
  }
  const auto input = droop_input(request);
  if (const auto* sentence = std::get_if<std::string>(&input)) {
    complain(*sentence);
    return Exit::refused;
  }
  const auto found = paper_at_hand(std::get<DroopInput>(input));
  if (const auto* sentence = std::get_if<std::string>(&found)) {
    complain(*sentence);
    return Exit::refused;
  }
  const auto& paper = std::get<PaperAtHand>(found);
  double units_to_mm = request.units == "in" ? inch_mm : 1;
  DroopTarget target;
  if (!request.paper_into.empty()) {
    const auto written = write_paper(request, paper.entry, units_to_mm);
    if (!written)
      return Exit::refused;
    target = *written;
  }
  const std::string report =
      request.json ? droop_json(paper, units_to_mm, target) : droop_text(paper, units_to_mm, target);
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
