#include "cli/kit_command.h"

#include "cli/design_file.h"
#include "cli/terminal.h"
#include "kit/kit.h"

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace fanwright::cli {
namespace {

std::optional<kit::Problem> write_kit(const DesignFile& read, const KitRequest& request,
                                      std::vector<std::string>& remarks) {
  Progress progress;
  kit::Options options;
  options.progress = [&](double share, std::string_view doing) { progress.show(share, doing); };
  options.cancelled = interrupted;
  options.remark = [&](const std::string& remark) { remarks.push_back(remark); };
  options.design_text = read.text;
  options.lap_mm = request.lap_mm;
  return kit::write(read.design, request.out, options);
}

} // namespace

int run_kit(const KitRequest& request) {
  const auto read = read_design_file(request.file);
  if (!read) {
    return Exit::refused;
  }
  catch_interrupts();
  const auto start = std::chrono::steady_clock::now();
  std::vector<std::string> remarks;
  const auto problem = write_kit(*read, request, remarks);
  if (problem) {
    // A folder's place is a path of its own; every other place lies in the design file.
    if (problem->cause == kit::Cause::folder) {
      complain((problem->where.empty() ? request.out : problem->where) + ": " + problem->sentence);
    } else {
      complain_about(request.file, {problem->where, problem->sentence});
    }
    return problem->cause == kit::Cause::form ? Exit::check_failed : Exit::refused;
  }
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  fmt::print("{}: kit of \"{}\", {} {}, in {:.1f} s\n", request.out, read->design.title, read->design.sizes.size(),
             read->design.sizes.size() == 1 ? "size" : "sizes", taken.count());
  for (const std::string& remark : remarks)
    fmt::print("{}\n", remark);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
