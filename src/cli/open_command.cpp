#include "cli/open_command.h"

#include "cli/design_file.h"
#include "cli/open_report.h"
#include "cli/refused_size.h"
#include "cli/terminal.h"
#include "fan/check_fans.h"
#include "fit/leaf_of.h"
#include "leaf/leaf.h"
#include "opened/opened.h"

#include <algorithm>
#include <cstdio>
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
    auto& [leaf, form, overlap, remarks] = std::get<fit::OpenedLeaf>(found);
    return Built{std::move(leaf), std::move(form), std::move(remarks)};
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
  OpenedSize opened{size, opened::panel_of(built.leaf, size), {}, std::nullopt, {}, built.remarks, {}};
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
      const auto& size = sizes[index];
      opened::Options options;
      options.progress = [&](double share) {
        progress.show((static_cast<double>(index) + share) / static_cast<double>(sizes.size()), "opening " + size.name);
      };
      auto opened = open_size(size, leaves[index], request.stages, options);
      if (const auto* failure = std::get_if<opened::Failure>(&opened)) {
        complain(request.file + ": Size \"" + size.name + "\": " + failure->sentence);
        return Exit::check_failed;
      }
      opened_sizes.push_back(std::get<OpenedSize>(std::move(opened)));
      opened_sizes.back().fans = std::get<std::vector<std::vector<fan::SizedFan>>>(spread_fans)[index];
      progress.show(1, "writing");
      if (const auto sentence =
              write_opened_files(request.files, *design, opened_sizes.back().panel, opened_sizes.back().form)) {
        complain(*sentence);
        return Exit::refused;
      }
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
