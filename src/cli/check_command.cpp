#include "cli/check_command.h"

#include "cli/check_report.h"
#include "cli/design_file.h"
#include "cli/terminal.h"
#include "cli/wanted_size.h"
#include "fan/check_fans.h"

#include <algorithm>
#include <cstdio>
#include <functional>
#include <iterator>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::cli {
namespace {

std::vector<fit::Finding> worst_first(std::vector<fit::Finding> of_leaf, std::vector<fit::Finding> of_fans) {
  of_leaf.insert(of_leaf.end(), std::make_move_iterator(of_fans.begin()), std::make_move_iterator(of_fans.end()));
  std::ranges::stable_sort(of_leaf, std::ranges::greater{}, &fit::Finding::verdict);
  return of_leaf;
}

} // namespace

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
      std::optional<opened::Form> form;
      fit::Options options;
      options.remedies = true;
      options.formed = [&](const opened::Form& found) { form = found; };
      options.progress = [&](double share) {
        progress.show((static_cast<double>(checked.size()) + share) / static_cast<double>(sizes.size()),
                      "checking " + size.name);
      };
      auto found = fit::check(*design, size, options);
      if (const auto* failure = std::get_if<fit::Failure>(&found)) {
        complain_about(request.file, {failure->where, failure->sentence});
        return Exit::refused;
      }
      auto fans = fan::check(*design, size, form ? &*form : nullptr);
      if (const auto* refusal = std::get_if<design::Refusal>(&fans)) {
        complain_about(request.file, *refusal);
        return Exit::refused;
      }
      checked.push_back({size.name, worst_first(std::get<std::vector<fit::Finding>>(std::move(found)),
                                                std::get<std::vector<fit::Finding>>(std::move(fans)))});
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
