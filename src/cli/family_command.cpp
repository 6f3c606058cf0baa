#include "cli/family_command.h"

#include "cli/changed_design.h"
#include "cli/design_file.h"
#include "cli/family_report.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"
#include "kit/size_sheet.h"
#include "leaf/marks.h"
#include "making/making.h"
#include "sheets/sheets.h"
#include "studio/whole_file.h"

#include <fmt/format.h>

#include <array>
#include <cstdio>
#include <string_view>
#include <variant>

namespace fanwright::cli {
namespace {

/// Sheets to go on to when a leaf is too large for the design's own, by the standard that one belongs to.
std::vector<std::string_view> larger_sheets(const std::string& name) {
  constexpr std::array<std::string_view, 7> metric = {"A6", "A5", "A4", "A3", "A2", "A1", "A0"};
  constexpr std::array<std::string_view, 3> imperial = {"letter", "legal", "tabloid"};
  for (std::size_t k = 0; k < imperial.size(); ++k) {
    if (name == imperial[k]) {
      return {imperial.begin() + static_cast<std::ptrdiff_t>(k) + 1, imperial.end()};
    }
  }
  for (std::size_t k = 0; k < metric.size(); ++k) {
    if (name == metric[k]) {
      return {metric.begin() + static_cast<std::ptrdiff_t>(k) + 1, metric.end()};
    }
  }
  return {};
}

/// Sheets of the size's own kind that its leaves take; 0 when a leaf does not fit.
int sheets_for(const design::Size& size, const leaf::Ring& outline) {
  const auto plan = sheets::lay_out({"leaf", outline, size.leaves}, kit::sheet_of(size.sheet), kit::turns_for(size));
  const auto* found = std::get_if<sheets::Plan>(&plan);
  return found != nullptr ? found->sheets : 0;
}

/// Counts the sheets; a leaf too large for its sheet is given the next larger one that takes it.
ProposedSize laid_out(fit::Proposal proposal, const design::Making& making) {
  const leaf::Ring outline = leaf::flatten(leaf::marks(proposal.leaf).cut, leaf::flatten_tolerance_mm);
  design::Size& size = proposal.size;
  const design::Sheet own = size.sheet;
  int count = sheets_for(size, outline);
  for (const std::string_view name : larger_sheets(own.name)) {
    if (count > 0) {
      break;
    }
    size.sheet.name = name;
    size.sheet.size = paper::sheet_size(name).value_or(own.size);
    count = sheets_for(size, outline);
  }
  if (count == 0) {
    size.sheet = own;
    proposal.reasons.push_back({"sheet", "the leaf is too large for every sheet that was tried: cut it from a roll, or "
                                         "give a sheet of your own"});
  } else if (size.sheet.name != own.name) {
    proposal.reasons.push_back({"sheet", size.sheet.name + ": the leaf does not fit on " + own.name});
  }
  const double paper_g = making::materials(proposal.leaf, size, making, count).paper_g;
  return {std::move(proposal), count, paper_g};
}

int write_copy(const FamilyRequest& request, const DesignFile& read, const std::vector<design::Size>& sizes) {
  const auto text = with_sizes(read.text, sizes);
  if (const auto* refusal = std::get_if<design::Refusal>(&text)) {
    complain_about(request.file, *refusal);
    return Exit::refused;
  }
  if (const auto sentence = studio::write_whole(request.out, std::get<std::string>(text))) {
    complain(*sentence);
    return Exit::refused;
  }
  return Exit::good;
}

std::variant<std::vector<ProposedSize>, int> proposed(const FamilyRequest& request, const design::Design& design,
                                                      const design::Size& from) {
  const double unit_mm = request.units == "in" ? 25.4 : 1;
  std::vector<double> heights;
  for (const double height : request.heights) {
    heights.push_back(height * unit_mm);
  }
  Progress progress;
  fit::Options options;
  options.cancelled = interrupted;
  options.progress = [&](double share) { progress.show(share, "opening each size"); };
  auto family = fit::family(design, from, heights, options);
  if (const auto* failure = std::get_if<fit::Failure>(&family)) {
    return exit_for(request.file, *failure);
  }
  std::vector<ProposedSize> sizes;
  for (fit::Proposal& proposal : std::get<std::vector<fit::Proposal>>(family)) {
    sizes.push_back(laid_out(std::move(proposal), design.making));
  }
  return sizes;
}

} // namespace

int run_family(const FamilyRequest& request) {
  const auto read = read_design_file(request.file);
  if (!read) {
    return Exit::refused;
  }
  const auto from = size_named(read->design, request.size, request.file);
  if (!from) {
    return Exit::refused;
  }
  catch_interrupts();
  const auto result = proposed(request, read->design, *from);
  if (const auto* exit = std::get_if<int>(&result)) {
    return *exit;
  }
  const auto& family = std::get<std::vector<ProposedSize>>(result);
  std::vector<design::Size> sizes;
  sizes.reserve(family.size());
  for (const ProposedSize& size : family) {
    sizes.push_back(size.proposal.size);
  }
  if (!request.out.empty()) {
    if (const int exit = write_copy(request, *read, sizes); exit != Exit::good) {
      return exit;
    }
  }
  const std::string entry = sizes_text(read->text, sizes);
  std::string report = request.json ? family_json(read->design.title, family, entry)
                                    : family_text(read->design.title, from->name, family);
  if (!request.json && request.out.empty()) {
    report += fmt::format("\nFor the design file (or let --out write a copy with it):\n\n  \"sizes\": {}\n", entry);
  } else if (!request.json) {
    report += fmt::format("\nWritten to {0}. To see them side by side: fanwright picture {0} --view family --out "
                          "family.png\n",
                          request.out);
  }
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
