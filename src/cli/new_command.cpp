#include "cli/new_command.h"

#include "cli/bounded_file.h"
#include "cli/design_file.h"
#include "cli/new_report.h"
#include "cli/terminal.h"
#include "studio/starters.h"
#include "studio/whole_file.h"
#include "traced/first_design.h"
#include "traced/overlay.h"
#include "traced/wishes.h"

#include <cstdio>
#include <filesystem>
#include <variant>

namespace fanwright::cli {
namespace {

constexpr const char* what_to_name = "name an SVG drawing, or a PNG or JPEG picture";

/// Whether something of this name is in the way; complains.
bool in_the_way(const std::string& file, bool replace) {
  std::error_code error;
  if (replace || !std::filesystem::exists(std::filesystem::symlink_status(file, error)))
    return false;
  complain(file + ": There is such a file already; name another with --out, or add --replace to write over it.");
  return true;
}

bool written(const std::string& file, const std::string& bytes) {
  const auto sentence = studio::write_whole(file, bytes);
  if (sentence)
    complain(*sentence);
  return !sentence;
}

int start_from(const NewRequest& request) {
  for (const studio::told::Starter& starter : studio::starters()) {
    if (starter.id != request.starter)
      continue;
    const std::string out = request.out.empty() ? request.starter + ".ornament.json" : request.out;
    if (in_the_way(out, request.replace) || !written(out, starter.text))
      return Exit::refused;
    const std::string report = starter_report(request.starter, out, request.json);
    std::fwrite(report.data(), 1, report.size(), stdout);
    return finish_output() ? Exit::good : Exit::refused;
  }
  std::string names;
  for (const studio::told::Starter& starter : studio::starters())
    names += (names.empty() ? "" : ", ") + starter.id;
  complain("There is no starter '" + request.starter + "'; there are " + names + ".");
  return Exit::refused;
}

/// The design as text. One that should open into the drawing is tried; where no leaf is found for it, the drawing
/// becomes the flat leaf, and `told` says so.
std::variant<std::string, int> design_text(const NewRequest& request, const traced::Figure& figure,
                                           const std::string& title, std::vector<std::string>& told) {
  if (request.shows == "flat")
    return traced::first_design(figure, title, design::Shows::flat);
  Progress progress;
  fit::Options options;
  options.cancelled = interrupted;
  options.progress = [&](double share) { progress.show(share, "looking for the leaf that opens into it"); };
  auto tried = traced::design_that_opens(figure, title, options);
  if (interrupted()) {
    complain("Interrupted; nothing was written.");
    return Exit::refused;
  }
  if (const auto* refusal = std::get_if<design::Refusal>(&tried)) {
    complain_about(request.from, *refusal);
    return Exit::refused;
  }
  auto& design = std::get<traced::Tried>(tried);
  if (!design.why_flat.empty())
    told.push_back(design.why_flat);
  return std::move(design.text);
}

int from_drawing(const NewRequest& request) {
  const auto wishes = traced::wishes_from({request.height, request.width, request.between, request.drawn, request.side,
                                           request.tolerance, request.units == "in" ? 25.4 : 1.0});
  if (const auto* sentence = std::get_if<std::string>(&wishes)) {
    complain(*sentence);
    return Exit::refused;
  }
  const auto bytes = read_bounded(request.from, traced::most_bytes, what_to_name);
  if (!bytes)
    return Exit::refused;
  auto result = traced::silhouettes(*bytes, std::get<traced::Wishes>(wishes));
  if (const auto* sentence = std::get_if<std::string>(&result)) {
    complain(request.from + ": " + *sentence);
    return Exit::refused;
  }
  auto& found = std::get<traced::Found>(result);
  if (request.figure < 1 || static_cast<std::size_t>(request.figure) > found.figures.size()) {
    complain(request.from + ": There is no figure " + std::to_string(request.figure) + "; the file shows " +
             std::to_string(found.figures.size()) + ", numbered by size from 1.");
    return Exit::refused;
  }
  traced::Figure& figure = found.figures[static_cast<std::size_t>(request.figure) - 1];
  const std::string name = traced::name_from(request.from);
  const std::string out = request.out.empty() ? name + ".ornament.json" : request.out;
  if (in_the_way(out, request.replace) || (!request.picture.empty() && in_the_way(request.picture, request.replace)))
    return Exit::refused;
  catch_interrupts();
  const std::string title = request.title.empty() ? traced::title_from(request.from) : request.title;
  const auto text = design_text(request, figure, title, figure.changed);
  if (const auto* exit = std::get_if<int>(&text))
    return *exit;
  if (!written(out, std::get<std::string>(text)) ||
      (!request.picture.empty() && !written(request.picture, traced::overlay(figure, title))))
    return Exit::refused;
  const std::string report = request.json ? new_json(found, request.figure, out, std::get<std::string>(text))
                                          : new_text(found, request.figure, out);
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace

int run_new(const NewRequest& request) {
  if (request.from.empty() == request.starter.empty()) {
    complain("Give a drawing or picture with --from, or one of our designs with --starter; see fanwright new --help.");
    return Exit::refused;
  }
  return request.from.empty() ? start_from(request) : from_drawing(request);
}

} // namespace fanwright::cli
