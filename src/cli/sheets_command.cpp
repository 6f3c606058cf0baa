#include "cli/sheets_command.h"

#include "cli/design_file.h"
#include "cli/refused_size.h"
#include "cli/sheets_report.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"
#include "fan/check_fans.h"
#include "fan/fans.h"
#include "fit/leaf_of.h"
#include "kit/fan_sheets.h"
#include "kit/size_sheet.h"
#include "leaf/marks.h"
#include "sheets/split.h"
#include "sheets/stock_names.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <optional>
#include <tuple>
#include <variant>

namespace fanwright::cli {
namespace {

/// Leaves that are cut from the same paper, and the sheets their sizes name.
struct PaperGroup {
  paper::Paper paper;
  std::vector<const design::Size*> sizes;
};

bool same_paper(const paper::Paper& a, const paper::Paper& b) {
  const auto tie = [](const paper::Paper& p) {
    return std::tie(p.grammage_gsm, p.caliper_mm, p.modulus_along_mpa, p.modulus_across_mpa, p.poisson, p.grain);
  };
  return tie(a) == tie(b);
}

std::vector<PaperGroup> grouped(const std::vector<design::Size>& sizes) {
  std::vector<PaperGroup> groups;
  for (const design::Size& size : sizes) {
    const auto found = std::find_if(groups.begin(), groups.end(),
                                    [&](const PaperGroup& group) { return same_paper(group.paper, size.paper); });
    if (found == groups.end())
      groups.push_back({size.paper, {&size}});
    else
      found->sizes.push_back(&size);
  }
  return groups;
}

/// The stocks asked for, or the sheets that the sizes name, each once.
std::variant<std::vector<sheets::Stock>, std::string> stocks_of(const PaperGroup& group, const SheetsRequest& request) {
  std::vector<sheets::Stock> stocks;
  for (const std::string& text : request.stocks) {
    auto stock = sheets::stock_from(text, kit::sheet_of(group.sizes.front()->sheet));
    if (const auto* refusal = std::get_if<sheets::Refusal>(&stock))
      return refusal->sentence;
    stocks.push_back(std::get<sheets::Stock>(std::move(stock)));
  }
  if (request.stocks.empty())
    for (const design::Size* size : group.sizes) {
      const auto known = [&](const sheets::Stock& stock) {
        return stock.sheet.size.width_mm == size->sheet.size.width_mm &&
               stock.sheet.size.height_mm == size->sheet.size.height_mm &&
               stock.sheet.margin_mm == size->sheet.margin_mm;
      };
      if (std::none_of(stocks.begin(), stocks.end(), known))
        stocks.push_back({kit::sheet_of(size->sheet), false, 0, {}});
    }
  const auto rolls = std::count_if(stocks.begin(), stocks.end(), [](const auto& stock) { return stock.roll; });
  if (rolls > 0 && rolls < static_cast<std::ptrdiff_t>(stocks.size()))
    return "Rolls and sheets cannot be used in one layout; ask for one or the other.";
  return stocks;
}

/// Sheets are long grain as a rule, and rolls along their length (common practice, no source). Here a roll runs along x
/// and a sheet's longer side along z, so the leaf's grain says how it lies. Square sheets can be turned by hand.
sheets::Turns turns_for(const PaperGroup& group, const std::vector<sheets::Stock>& stocks, bool any_turn) {
  const bool square = std::all_of(stocks.begin(), stocks.end(), [](const sheets::Stock& stock) {
    return stock.sheet.size.width_mm == stock.sheet.size.height_mm;
  });
  if (any_turn || square)
    return sheets::Turns::either;
  const bool along = group.paper.grain == paper::Grain::along_spine;
  return along != stocks.front().roll ? sheets::Turns::upright : sheets::Turns::sideways;
}

std::vector<leaf::Ring> flattened(const std::vector<leaf::Contour>& contours) {
  std::vector<leaf::Ring> rings;
  rings.reserve(contours.size());
  for (const leaf::Contour& contour : contours)
    rings.push_back(leaf::flatten(contour, leaf::flatten_tolerance_mm));
  return rings;
}

bool fits_some(const sheets::Kind& kind, const std::vector<sheets::Stock>& stocks) {
  return std::any_of(stocks.begin(), stocks.end(), [&](const sheets::Stock& stock) {
    return std::holds_alternative<sheets::Plan>(
        sheets::lay_out({kind.name, kind.outline, 1}, stock.sheet, kind.turns, {0, 1, {}, {}}));
  });
}

/// The leaf whole, or its two halves when it fits no stock and a lap is allowed.
std::optional<std::string> add_kinds(const leaf::Leaf& leaf, const design::Size& size, const SheetsRequest& request,
                                     sheets::Job& job, sheets::Turns turns) {
  const leaf::Marks marks = leaf::marks(leaf);
  sheets::Kind whole{"leaf of " + size.name,
                     leaf::flatten(marks.cut, leaf::flatten_tolerance_mm),
                     flattened(marks.cut_outs),
                     size.leaves,
                     turns,
                     request.both_faces,
                     true};
  if (request.lap_mm <= 0 || fits_some(whole, job.stocks)) {
    job.kinds.push_back(std::move(whole));
    return std::nullopt;
  }
  auto split = sheets::split_at_spine(leaf, request.lap_mm);
  if (const auto* refusal = std::get_if<sheets::Refusal>(&split))
    return refusal->sentence;
  auto& halves = std::get<sheets::SplitLeaf>(split);
  const auto add = [&](const std::string& name, const leaf::Contour& outline, const std::vector<leaf::Contour>& holes) {
    job.kinds.push_back({name + " of " + size.name, leaf::flatten(outline, leaf::flatten_tolerance_mm),
                         flattened(holes), size.leaves, turns, request.both_faces});
  };
  add("right half with lap", halves.right, halves.right_holes);
  add("left half", halves.left, halves.left_holes);
  return std::nullopt;
}

/// The job of one paper, or what the command exits with, the complaint made.
std::variant<sheets::Job, Exit> job_of(const design::Design& design, const PaperGroup& group,
                                       const SheetsRequest& request) {
  auto stocks = stocks_of(group, request);
  if (const auto* sentence = std::get_if<std::string>(&stocks)) {
    complain(*sentence);
    return Exit::refused;
  }
  sheets::Job job;
  job.stocks = std::get<std::vector<sheets::Stock>>(std::move(stocks));
  const sheets::Turns turns = turns_for(group, job.stocks, request.any_turn);
  Progress progress;
  for (const design::Size* size : group.sizes) {
    fit::Options options;
    options.progress = [&](double share) { progress.show(share, "flat leaf of " + size->name); };
    options.cancelled = interrupted;
    const auto built = fit::leaf_of(design, *size, options);
    if (const auto* failure = std::get_if<fit::Failure>(&built)) {
      return static_cast<Exit>(refuse_size(request.file, design, *size, *failure, request.json));
    }
    if (const auto sentence = add_kinds(std::get<leaf::Leaf>(built), *size, request, job, turns)) {
      complain(request.file + ": Size \"" + size->name + "\": " + *sentence);
      return Exit::check_failed;
    }
  }
  return job;
}

/// Lays out one paper; or what the command exits with, the complaint made.
std::variant<LaidPaper, Exit> laid(sheets::Job job, const SheetsRequest& request) {
  Progress progress;
  sheets::Effort effort;
  effort.work = request.work > 0 ? request.work : sheets::usual_work(job);
  effort.seed = request.seed;
  effort.progress = [&](double share) { progress.show(share, "laying out"); };
  effort.cancelled = interrupted;
  const auto begun = std::chrono::steady_clock::now();
  auto result = sheets::plan(job, effort);
  if (const auto* refusal = std::get_if<sheets::Refusal>(&result)) {
    complain(request.file + ": " + refusal->sentence);
    return Exit::check_failed;
  }
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begun;
  return LaidPaper{std::move(job), std::get<sheets::JobPlan>(std::move(result)), taken.count()};
}

/// The strips of a size's fans on the sheet that the size names, as the kit lays them out: their pleats, and so the
/// grain, along its longer side.
std::optional<Exit> add_fans(const design::Design& design, const design::Size& size, const SheetsRequest& request,
                             std::vector<LaidPaper>& papers) {
  const auto fans = fan::fans_of(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&fans)) {
    complain_about(request.file, *refusal);
    return fan::fails_check(*refusal) ? Exit::check_failed : Exit::refused;
  }
  auto layouts = kit::fan_layouts(std::get<std::vector<fan::SizedFan>>(fans), size.sheet);
  if (const auto* refusal = std::get_if<design::Refusal>(&layouts)) {
    complain_about(request.file, {size.where + "/sheet", refusal->sentence});
    return Exit::check_failed;
  }
  for (kit::FanLayout& layout : std::get<std::vector<kit::FanLayout>>(layouts)) {
    for (sheets::Kind& kind : layout.job.kinds)
      kind.name += " of " + size.name;
    papers.push_back({std::move(layout.job), std::move(layout.plan), 0});
  }
  return std::nullopt;
}

} // namespace

int run_sheets(const SheetsRequest& request) {
  const auto design = read_design(request.file);
  if (!design)
    return Exit::refused;
  const std::vector<design::Size> sizes = sizes_named(*design, request.size, request.file);
  if (sizes.empty())
    return Exit::refused;
  catch_interrupts();
  std::vector<LaidPaper> papers;
  for (const PaperGroup& group : grouped(sizes)) {
    auto job = job_of(*design, group, request);
    if (const auto* exit = std::get_if<Exit>(&job))
      return *exit;
    auto paper = laid(std::get<sheets::Job>(std::move(job)), request);
    if (const auto* exit = std::get_if<Exit>(&paper))
      return *exit;
    papers.push_back(std::get<LaidPaper>(std::move(paper)));
  }
  for (const design::Size& size : sizes)
    if (const auto exit = add_fans(*design, size, request, papers))
      return *exit;
  if (interrupted())
    complain("Stopped early; this is the best layout found so far.");
  const std::string report = request.json ? sheets_json(design->title, papers) : sheets_table(design->title, papers);
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
