#include "measured.h"
#include "mixed_jobs.h"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>

namespace fanwright::bench {
namespace {

constexpr std::int64_t work_a_kind = 8'000'000; // as the command grants

/// What the library's program says of the job; 0 when it finds no layout.
int sheets_of_library(const sheets::Job& job, const std::string& program) {
  const auto file = std::filesystem::temp_directory_path() / "mixed_job.json";
  std::ofstream(file) << job_json(job);
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> answer(
      popen(fmt::format("'{}' < '{}'", program, file.string()).c_str(), "r"), pclose);
  char line[256];
  int sheets = 0;
  while (answer && std::fgets(line, sizeof line, answer.get()))
    std::sscanf(line, "fewest %d", &sheets);
  std::filesystem::remove(file);
  return sheets;
}

} // namespace

int mixed_jobs(int number, std::uint64_t seed, const std::string& library_program) {
  int ours_in_all = 0, library_in_all = 0, worse = 0;
  for (int i = 0; i < number; ++i) {
    const sheets::Job job = mixed_job(seed + static_cast<std::uint64_t>(i));
    const double begun = processor_seconds();
    const auto result = sheets::plan(job, {work_a_kind * static_cast<std::int64_t>(job.kinds.size()), 1, {}, {}});
    const double taken = processor_seconds() - begun;
    const auto* plan = std::get_if<sheets::JobPlan>(&result);
    const int ours = plan ? plan->sheets_in_all : 0;
    const int library = library_program.empty() ? 0 : sheets_of_library(job, library_program);
    fmt::print("job {:>4} on {:<8} {} sheets (never fewer than {}), {:5.1f} s; library {}\n",
               seed + static_cast<std::uint64_t>(i), job.stocks[0].sheet.name, ours, plan ? plan->fewest_sheets : 0,
               taken, library);
    std::fflush(stdout);
    ours_in_all += ours, library_in_all += library;
    worse += library > 0 && (ours == 0 || ours > library) ? 1 : 0;
  }
  fmt::print("in all {} sheets, library {}; more than the library in {} jobs\n", ours_in_all, library_in_all, worse);
  return worse == 0 ? 0 : 1;
}

} // namespace fanwright::bench
