#include "measured.h"
#include "mixed_jobs.h"
#include "sheets/bound.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>

namespace fanwright::bench {
namespace {

constexpr int most_library_seconds = 300;

/// Sheets by the library's program: with the true no-fit polygons handed to it, and by itself. 0 where it finds no
/// layout in time.
struct LibrarySheets {
  int fewest = 0, by_itself = 0;
};

LibrarySheets sheets_of_library(const sheets::Job& job, const std::string& program) {
  LibrarySheets sheets;
  if (program.empty())
    return sheets;
  const auto file = std::filesystem::temp_directory_path() / fmt::format("mixed_job_{}.json", getpid());
  std::ofstream(file) << job_json(job);
  const std::string command = fmt::format("timeout {} '{}' < '{}'", most_library_seconds, program, file.string());
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> answer(popen(command.c_str(), "r"), pclose);
  char line[256];
  while (answer && std::fgets(line, sizeof line, answer.get()))
    std::sscanf(line, "fewest %d by itself %d", &sheets.fewest, &sheets.by_itself);
  std::filesystem::remove(file);
  return sheets;
}

/// How full `sheets` sheets would be, pieces and sheet grown by half the gap: above some 85 % there is little hope.
double filling(const sheets::Job& job, int sheets) {
  const sheets::Sheet& sheet = job.stocks[0].sheet;
  const std::int64_t gap = sheets::gap_um(sheet);
  double paper = 0;
  for (const sheets::Kind& kind : job.kinds)
    paper += kind.count * sheets::grown_area_mm2(sheets::profile_of(kind.outline), gap);
  return paper / (sheets * sheets::grown_room_mm2(sheets::usable(sheet), gap));
}

} // namespace

int mixed_jobs(int number, std::uint64_t seed, const std::string& library_program) {
  int ours_in_all = 0, worse = 0;
  LibrarySheets in_all;
  for (int i = 0; i < number; ++i) {
    const sheets::Job job = mixed_job(seed + static_cast<std::uint64_t>(i));
    const double begun = processor_seconds();
    const auto result = sheets::plan(job, {sheets::usual_work(job), 1, {}, {}}); // as the command grants
    const double taken = processor_seconds() - begun;
    const auto* plan = std::get_if<sheets::JobPlan>(&result);
    const int ours = plan ? plan->sheets_in_all : 0;
    const LibrarySheets library = sheets_of_library(job, library_program);
    fmt::print(
        "job {:>4} on {:<8} {} sheets ({:2.0f} % full; one fewer {:3.0f} %), {:5.1f} s; library by itself {}, with "
        "true outlines {}\n",
        seed + static_cast<std::uint64_t>(i), job.stocks[0].sheet.name, ours, 100 * filling(job, std::max(1, ours)),
        100 * filling(job, std::max(1, ours - 1)), taken, library.by_itself, library.fewest);
    std::fflush(stdout);
    ours_in_all += ours, in_all.fewest += library.fewest, in_all.by_itself += library.by_itself;
    worse += library.fewest > 0 && (ours == 0 || ours > library.fewest) ? 1 : 0;
  }
  fmt::print("in all {} sheets, library by itself {}, with true outlines {}; more than the library in {} jobs\n",
             ours_in_all, in_all.by_itself, in_all.fewest, worse);
  return worse == 0 ? 0 : 1;
}

} // namespace fanwright::bench
