// Densities of layouts. Strip instances are the open ones of the cutting-and-packing community; a folder of them holds
// files with "name", "strip_height" and "pieces" (polygon, demand, rotations).
//
//   bench_sheets --strips FOLDER --seconds 60 --seed 1 --commit "$(git rev-parse --short HEAD)"
//   bench_sheets --jobs 1
//   bench_sheets --mixed 20 --seed 1 --library build/release/bench/sheets/library_sheets
#include "measured.h"

#include <fmt/format.h>

#include <cstdlib>
#include <string>

int main(int count, char** arguments) {
  std::string folder, library, commit = "not given";
  int mixed = 0;
  double seconds = 10;
  std::uint64_t seed = 1;
  for (int i = 1; i + 1 < count; i += 2) {
    const std::string name = arguments[i], value = arguments[i + 1];
    if (name == "--strips")
      folder = value;
    else if (name == "--seconds")
      seconds = std::strtod(value.c_str(), nullptr);
    else if (name == "--seed")
      seed = std::strtoull(value.c_str(), nullptr, 10);
    else if (name == "--mixed")
      mixed = static_cast<int>(std::strtol(value.c_str(), nullptr, 10));
    else if (name == "--library")
      library = value;
    else if (name == "--commit")
      commit = value;
  }
  fmt::print("commit {}, seed {}\n", commit, seed);
  if (!folder.empty())
    return fanwright::bench::strips(folder, seconds, seed);
  if (mixed > 0)
    return fanwright::bench::mixed_jobs(mixed, seed, library);
  fanwright::bench::leaf_jobs(seed);
  return 0;
}
