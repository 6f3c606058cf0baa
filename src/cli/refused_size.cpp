#include "cli/refused_size.h"

#include "cli/check_report.h"
#include "cli/design_file.h"
#include "cli/terminal.h"
#include "fit/remedy.h"

#include <nlohmann/json.hpp>

#include <cstdio>

namespace fanwright::cli {

int refuse_size(const std::string& file, const design::Design& design, const design::Size& size,
                const fit::Failure& failure, bool json) {
  std::vector<fit::Change> tried;
  {
    Progress progress;
    progress.show(0, "no flat leaf for " + size.name + ": trying changes");
    tried = fit::remedies(design, size, failure, {{}, interrupted});
  }
  if (json && failure.fails_check) {
    const nlohmann::ordered_json refused = {{"size", size.name},
                                            {"where", failure.where},
                                            {"sentence", fit::reason_of(failure.sentence)},
                                            {"tried", nlohmann::ordered_json::parse(tried_json(design, tried))}};
    const std::string report = nlohmann::ordered_json{{"title", design.title}, {"refused", refused}}.dump(1) + "\n";
    std::fwrite(report.data(), 1, report.size(), stdout);
    if (!finish_output())
      return Exit::refused;
  }
  complain_about(file, {failure.where, fit::refusal_of(failure, tried)});
  return failure.fails_check ? Exit::check_failed : Exit::refused;
}

} // namespace fanwright::cli
