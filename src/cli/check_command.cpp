#include "cli/check_command.h"

#include "cli/check_report.h"
#include "cli/design_file.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"

#include <cstdio>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::cli {
int run_check(const CheckRequest& request) {
  const auto design = read_design(request.file);
  if (!design)
    return Exit::refused;
  const auto sizes = sizes_named(*design, request.size, request.file);
  if (sizes.empty())
    return Exit::refused;
  std::vector<CheckedSize> checked;
  bool fails = false;
  {
    Progress progress;
    for (const design::Size& size : sizes) {
      fit::Options options;
      options.remedies = true;
      options.progress = [&](double share) {
        progress.show((static_cast<double>(checked.size()) + share) / static_cast<double>(sizes.size()),
                      "checking " + size.name);
      };
      auto found = fit::check(*design, size, options);
      if (const auto* failure = std::get_if<fit::Failure>(&found)) {
        complain_about(request.file, {failure->where, failure->sentence});
        return Exit::refused;
      }
      checked.push_back({size.name, std::get<std::vector<fit::Finding>>(std::move(found))});
      fails = fails || fit::worst(checked.back().findings) == fit::Finding::fails;
    }
  }
  const std::string report =
      request.json ? check_json(*design, checked) : check_table(design->title, checked, request.brief);
  std::fwrite(report.data(), 1, report.size(), stdout);
  if (!finish_output())
    return Exit::refused;
  return fails ? Exit::check_failed : Exit::good;
}

} // namespace fanwright::cli
