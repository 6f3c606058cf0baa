#include "cli/advise_command.h"

#include "cli/advise_report.h"
#include "cli/design_file.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"
#include "making/making.h"

#include <cstdio>
#include <utility>
#include <variant>

namespace fanwright::cli {
namespace {

Hours hours_of(const design::Design& design, design::Size size, int leaves) {
  size.leaves = leaves;
  design::Making one = design.making;
  one.pieces = 1;
  const making::Schedule schedule = making::schedule(size, one);
  return {schedule.hands_on_min / 60, schedule.finish_min / 60};
}

} // namespace

int run_advise(const AdviseRequest& request) {
  const auto design = read_design(request.file);
  if (!design) {
    return Exit::refused;
  }
  const auto sizes = sizes_named(*design, request.size, request.file);
  if (sizes.empty()) {
    return Exit::refused;
  }
  std::vector<AdvisedSize> advised;
  {
    Progress progress;
    for (const design::Size& size : sizes) {
      fit::Options options;
      options.progress = [&](double share) {
        progress.show((static_cast<double>(advised.size()) + share) / static_cast<double>(sizes.size()), size.name);
      };
      auto advice = fit::advise(*design, size, options);
      if (const auto* failure = std::get_if<fit::Failure>(&advice)) {
        return exit_for(request.file, *failure);
      }
      AdvisedSize result{size, std::get<fit::Advice>(std::move(advice)), {}};
      for (const fit::Opened& look : result.advice.looks) {
        result.hours.push_back(hours_of(*design, size, look.cells.leaves));
      }
      advised.push_back(std::move(result));
    }
  }
  const std::string report = request.json ? advise_json(design->title, advised) : advise_text(design->title, advised);
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
