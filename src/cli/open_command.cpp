#include "cli/open_command.h"

#include "cli/design_file.h"
#include "cli/open_report.h"
#include "cli/refused_size.h"
#include "cli/terminal.h"
#include "fan/check_fans.h"
#include "fit/leaf_of.h"
#include "leaf/leaf.h"
#include "opened/opened.h"
#include "picture/seated_paper.h"

#include <algorithm>
#include <cstdio>
#include <functional>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::cli {
namespace {

/// The sizes wanted; none, with a complaint, when the name is not in the file.
std::vector<design::Size> wanted_sizes(const design::Design& design, const OpenRequest& request) {
  if (request.size.empty()) {
    return design.sizes;
  }
  std::string names;
  for (const auto& size : design.sizes) {
    if (size.name == request.size) {
      return {size};
    }
    names += (names.empty() ? "\"" : ", \"") + size.name + "\"";
  }
  complain(request.file + ": There is no size \"" + request.size + "\"; the file has " + names + ".");
  return {};
}

/// A flat leaf; where it was derived, with the form that was found on the way.
struct Built {
  leaf::Leaf leaf;
  std::optional<opened::Form> form;
  std::vector<std::string> remarks;
};

std::variant<Built, fit::Failure> build(const design::Design& design, const design::Size& size,
                                        const fit::Options& options) {
  if (design.shows == design::Shows::opened) {
    auto found = fit::opened_leaf(design, size, options);
    if (auto* failure = std::get_if<fit::Failure>(&found)) {
      return std::move(*failure);
    }
    auto& opened = std::get<fit::OpenedLeaf>(found);
    return Built{std::move(opened.leaf), std::move(opened.form), std::move(opened.remarks)};
  }
  auto leaf = fit::leaf_of(design, size, options);
  if (auto* failure = std::get_if<fit::Failure>(&leaf)) {
    return std::move(*failure);
  }
  return Built{std::get<leaf::Leaf>(std::move(leaf)), std::nullopt, {}};
}

/// The flat leaves of all sizes, so that a mistake in any of them is found before the first is opened; or what the
/// command exits with, the complaint made.
std::variant<std::vector<Built>, Exit>
build_leaves(const design::Design& design, const std::vector<design::Size>& sizes, const OpenRequest& request) {
  std::vector<Built> leaves;
  Progress progress;
  for (const auto& size : sizes) {
    fit::Options options;
    options.progress = [&](double share) {
      progress.show((static_cast<double>(leaves.size()) + share) / static_cast<double>(sizes.size()),
                    "flat leaf of " + size.name);
    };
    auto built = build(design, size, options);
    if (const auto* failure = std::get_if<fit::Failure>(&built)) {
      return static_cast<Exit>(refuse_size(request.file, design, size, *failure, request.json));
    }
    leaves.push_back(std::get<Built>(std::move(built)));
  }
  return leaves;
}

/// The fans of all sizes, or what the command exits with, the complaint made.
std::variant<std::vector<std::vector<fan::SizedFan>>, Exit>
fans_of(const design::Design& design, const std::vector<design::Size>& sizes, const std::string& file) {
  std::vector<std::vector<fan::SizedFan>> all;
  for (const auto& size : sizes) {
    auto fans = fan::fans_of(design, size);
    if (const auto* refusal = std::get_if<design::Refusal>(&fans)) {
      complain_about(file, *refusal);
      return fan::fails_check(*refusal) ? Exit::check_failed : Exit::refused;
    }
    all.push_back(std::get<std::vector<fan::SizedFan>>(std::move(fans)));
  }
  return all;
}

/// The opened form with its spread and, when stages are wanted, the way there. `progress` of the options gets the
/// form's.
std::variant<OpenedSize, opened::Failure> open_size(const design::Size& size, const Built& built, int stages,
                                                    const opened::Options& options) {
  OpenedSize opened{size, opened::panel_of(built.leaf, size), {}, std::nullopt, {}, built.remarks, {}, {}, {}};
  if (built.form) {
    opened.form = *built.form;
  } else {
    auto form = opened::open(opened.panel, options);
    if (auto* failure = std::get_if<opened::Failure>(&form)) {
      return std::move(*failure);
    }
    opened.form = std::get<opened::Form>(std::move(form));
  }
  const auto spread = opened::spread(opened.panel, opened.form);
  if (const auto* found = std::get_if<opened::Spread>(&spread)) {
    opened.spread = *found;
  }
  if (stages > 0) {
    auto sequence = opened::opening_sequence(opened.panel, stages);
    if (auto* failure = std::get_if<opened::Failure>(&sequence)) {
      return std::move(*failure);
    }
    opened.stages = std::get<std::vector<opened::Stage>>(std::move(sequence));
  }
  return opened;
}

/// Puts the fans in their seats. A form that is not real seats none.
std::optional<design::Refusal> take_seats(const design::Design& design, OpenedSize& opened) {
  if (!why_not_real(opened).empty()) {
    return std::nullopt;
  }
  const bool stands = design.making.display == design::Display::stands;
  const int leaves = opened.size.leaves;
  const paper::Paper& paper = opened.size.paper;
  auto seats = fan::seated_fans(opened.fans, opened.form, leaves, paper, stands);
  if (auto* refused = std::get_if<fan::Unseated>(&seats)) {
    return std::move(refused->why);
  }
  opened.seats = std::get<std::vector<fan::SeatedFan>>(std::move(seats));
  if (!opened.seats.empty()) {
    opened.figure = fan::figure_with(opened.fans, opened.seats, opened.form, leaves, paper, stands);
  }
  return std::nullopt;
}

/// One size with its fans in their seats, its files written; or what the command exits with, the complaint made.
std::variant<OpenedSize, Exit> opened_size(const design::Design& design, const design::Size& size, const Built& built,
                                           std::vector<fan::SizedFan> fans, const OpenRequest& request,
                                           const std::function<void(double, const std::string&)>& shown) {
  opened::Options options;
  options.progress = [&](double share) { shown(share, "opening " + size.name); };
  auto found = open_size(size, built, request.stages, options);
  if (const auto* failure = std::get_if<opened::Failure>(&found)) {
    complain(request.file + ": Size \"" + size.name + "\": " + failure->sentence);
    return Exit::check_failed;
  }
  auto& opened = std::get<OpenedSize>(found);
  opened.fans = std::move(fans);
  if (const auto refusal = take_seats(design, opened)) {
    complain_about(request.file, *refusal);
    return Exit::check_failed;
  }
  shown(1, "writing");
  const auto papers = picture::paper_of(opened.fans, opened.seats);
  if (const auto* refusal = std::get_if<design::Refusal>(&papers)) {
    complain_about(request.file, *refusal);
    return Exit::check_failed;
  }
  if (const auto sentence = write_opened_files(request.files, design, opened.panel, opened.form,
                                               std::get<std::vector<picture::FanPaper>>(papers))) {
    complain(*sentence);
    return Exit::refused;
  }
  return std::move(opened);
}

/// What is wrong with the files asked for; a file shows one size.
std::optional<std::string> fault_of_files(const OpenRequest& request, std::size_t sizes) {
  if ((!request.files.mesh.empty() || !request.files.lines.empty()) && sizes > 1) {
    return request.file + ": The file has " + std::to_string(sizes) +
           " sizes and a mesh or line drawing shows one; name it with --size.";
  }
  return fault_of(request.files);
}

} // namespace

int run_open(const OpenRequest& request) {
  const auto design = read_design(request.file);
  if (!design) {
    return Exit::refused;
  }
  const auto sizes = wanted_sizes(*design, request);
  if (sizes.empty()) {
    return Exit::refused;
  }
  if (const auto fault = fault_of_files(request, sizes.size())) {
    complain(*fault);
    return Exit::refused;
  }
  const auto built = build_leaves(*design, sizes, request);
  if (const auto* exit = std::get_if<Exit>(&built)) {
    return *exit;
  }
  const auto& leaves = std::get<std::vector<Built>>(built);
  const auto spread_fans = fans_of(*design, sizes, request.file);
  if (const auto* exit = std::get_if<Exit>(&spread_fans)) {
    return *exit;
  }
  std::vector<OpenedSize> opened_sizes;
  {
    Progress progress;
    for (std::size_t index = 0; index < sizes.size(); ++index) {
      const auto shown = [&](double share, const std::string& what) {
        progress.show((static_cast<double>(index) + share) / static_cast<double>(sizes.size()), what);
      };
      auto fans = std::get<std::vector<std::vector<fan::SizedFan>>>(spread_fans)[index];
      auto opened = opened_size(*design, sizes[index], leaves[index], std::move(fans), request, shown);
      if (const auto* exit = std::get_if<Exit>(&opened)) {
        return *exit;
      }
      opened_sizes.push_back(std::get<OpenedSize>(std::move(opened)));
    }
  }
  const std::string report =
      request.json ? open_json(design->title, opened_sizes) : open_table(design->title, opened_sizes);
  std::fwrite(report.data(), 1, report.size(), stdout);
  int exit = finish_output() ? Exit::good : Exit::refused;
  for (const auto& opened : opened_sizes) {
    if (const std::string refusal = why_not_real(opened); !refusal.empty()) {
      complain(request.file + ": " + refusal);
      exit = std::max<int>(exit, Exit::check_failed);
    }
  }
  return exit;
}

} // namespace fanwright::cli
