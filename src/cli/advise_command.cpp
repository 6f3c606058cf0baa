#include "cli/advise_command.h"

#include "cli/advise_report.h"
#include "cli/design_file.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"

#include <cstdio>
#include <utility>
#include <variant>

namespace fanwright::cli {
int run_advise(const AdviseRequest& request) {
  const auto design = read_design(request.file);
  if (!design) {
    return Exit::refused;
  }
  const auto sizes = sizes_named(*design, request.size, request.file);
  if (sizes.empty()) {
    return Exit::refused;
  }
  std::vector<studio::Advised> advised;
  {
    Progress progress;
    for (const design::Size& size : sizes) {
      fit::Options options;
      options.progress = [&](double share) {
        progress.show((static_cast<double>(advised.size()) + share) / static_cast<double>(sizes.size()), size.name);
      };
      auto found = studio::advised(*design, size, options);
      if (const auto* failure = std::get_if<fit::Failure>(&found)) {
        return exit_for(request.file, *failure);
      }
      advised.push_back(std::get<studio::Advised>(std::move(found)));
    }
  }
  const std::string report = request.json ? advise_json(design->title, advised) : advise_text(design->title, advised);
  std::fwrite(report.data(), 1, report.size(), stdout);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
