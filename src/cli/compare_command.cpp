#include "cli/compare_command.h"

#include "cli/changed_design.h"
#include "cli/compare_report.h"
#include "cli/design_file.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"
#include "studio/whole_file.h"

#include <cstdio>
#include <optional>
#include <variant>

namespace fanwright::cli {
namespace {

constexpr double usual_uncertainty_mm = 0.5;

std::optional<double> asked(double value, double unit_mm) {
  return value > 0 ? std::optional(value * unit_mm) : std::nullopt;
}

/// What the next piece is to be: as asked, else as high as this one was to be.
fit::Wanted wanted(const CompareRequest& request, const fit::Comparison& comparison, double unit_mm) {
  fit::Wanted wanted{asked(request.wanted_height, unit_mm), asked(request.wanted_diameter, unit_mm)};
  if (!wanted.height_mm && !wanted.diameter_mm) {
    wanted.height_mm = comparison.height_mm;
  }
  return wanted;
}

int write_copy(const CompareRequest& request, const DesignFile& read, const design::Size& size,
               const fit::Correction& correction) {
  const auto text = with_height(read.text, size, correction.height_mm);
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

/// Compares and, where asked for, corrects; or what the command exits with, the complaint made.
std::variant<ComparedSize, int> compared(const CompareRequest& request, const DesignFile& read,
                                         const design::Size& size) {
  const double unit_mm = request.units == "in" ? 25.4 : 1;
  Progress progress;
  fit::Options options;
  options.cancelled = interrupted;
  options.progress = [&](double share) { progress.show(share, "changing one input at a time"); };
  const fit::Readings readings{request.height * unit_mm, request.diameter * unit_mm,
                               asked(request.uncertainty, unit_mm).value_or(usual_uncertainty_mm)};
  auto comparison = fit::compare(read.design, size, readings, options);
  if (const auto* failure = std::get_if<fit::Failure>(&comparison)) {
    return exit_for(request.file, *failure);
  }
  ComparedSize result{read.design.title, size.name, std::get<fit::Comparison>(std::move(comparison)), {}, unit_mm};
  if (request.wanted_height > 0 || request.wanted_diameter > 0 || !request.out.empty()) {
    auto correction =
        fit::corrected(read.design, size, result.comparison, wanted(request, result.comparison, unit_mm), options);
    if (const auto* failure = std::get_if<fit::Failure>(&correction)) {
      return exit_for(request.file, *failure);
    }
    result.correction = std::get<fit::Correction>(correction);
  }
  return result;
}

} // namespace

int run_compare(const CompareRequest& request) {
  const auto read = read_design_file(request.file);
  if (!read) {
    return Exit::refused;
  }
  const auto size = size_named(read->design, request.size, request.file);
  if (!size) {
    return Exit::refused;
  }
  catch_interrupts();
  const auto result = compared(request, *read, *size);
  if (const auto* exit = std::get_if<int>(&result)) {
    return *exit;
  }
  const auto& told = std::get<ComparedSize>(result);
  if (!request.out.empty()) {
    if (const int exit = write_copy(request, *read, *size, *told.correction); exit != Exit::good) {
      return exit;
    }
  }
  const std::string report = request.json ? compare_json(told) : compare_text(told);
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
