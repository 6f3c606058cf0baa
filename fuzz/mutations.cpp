// fuzz_KIND SEEDS-FOLDER SECONDS [SEED [KEPT-FOLDER]]: files of the folder, changed at random, one after the other.
// Takes libFuzzer's place where the compiler is another one; the same seed makes the same files. The file under way is
// kept in KEPT-FOLDER/under-way, so that it is there after a crash; the slowest one is told and kept too.
#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
extern "C" [[gnu::weak]] std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t room,
                                                             unsigned seed);

namespace {

using Bytes = std::vector<std::uint8_t>;

std::mt19937_64 chance;

std::size_t below(std::size_t end) { return end == 0 ? 0 : static_cast<std::size_t>(chance() % end); }

std::vector<Bytes> files_in(const char* folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  std::vector<Bytes> files;
  for (const auto& path : paths) {
    std::ifstream file(path, std::ios::binary);
    files.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return files;
}

void keep(const std::string& path, const Bytes& bytes) {
  std::ofstream(path, std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
}

/// One small change: a byte, a number's digit, a piece doubled, taken out or moved.
std::size_t mutated(std::uint8_t* data, std::size_t size, std::size_t room) {
  if (size == 0)
    return 0;
  const std::size_t at = below(size), length = 1 + below(std::min<std::size_t>(size - at, 64));
  switch (below(6)) {
  case 0:
    data[at] = static_cast<std::uint8_t>(data[at] ^ (1u << below(8)));
    return size;
  case 1:
    data[at] = static_cast<std::uint8_t>(chance());
    return size;
  case 2:
    data[at] = static_cast<std::uint8_t>("0123456789.-eE<>/\"' #()"[below(23)]);
    return size;
  case 3: // taken out
    std::move(data + at + length, data + size, data + at);
    return size - length;
  case 4: // doubled
    if (size + length > room)
      return size;
    std::move_backward(data + at, data + size, data + size + length);
    return size + length;
  default: // put over another place
    std::copy(data + at, data + at + length, data + below(size - length + 1));
    return size;
  }
}

Bytes changed(Bytes bytes, const std::vector<Bytes>& seeds) {
  const std::size_t room = bytes.size() + 4096;
  for (std::size_t times = 1 + below(6); times > 0; --times) {
    if (below(8) == 0) { // a piece of another file
      const Bytes& other = seeds[below(seeds.size())];
      const std::size_t from = below(other.size()), length = below(std::min<std::size_t>(other.size() - from, 400) + 1);
      bytes.insert(bytes.begin() + static_cast<std::ptrdiff_t>(below(bytes.size() + 1)),
                   other.begin() + static_cast<std::ptrdiff_t>(from),
                   other.begin() + static_cast<std::ptrdiff_t>(from + length));
      continue;
    }
    const std::size_t size = bytes.size(), more = std::max(room, size + 4096);
    bytes.resize(more);
    bytes.resize(LLVMFuzzerCustomMutator != nullptr
                     ? LLVMFuzzerCustomMutator(bytes.data(), size, more, static_cast<unsigned>(chance()))
                     : mutated(bytes.data(), size, more));
  }
  return bytes;
}

} // namespace

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t room) {
  return mutated(data, size, room);
}

int main(int count, char** words) {
  using Clock = std::chrono::steady_clock;
  const std::vector<Bytes> seeds = count > 2 ? files_in(words[1]) : std::vector<Bytes>{};
  if (seeds.empty()) {
    std::fprintf(stderr, "%s SEEDS-FOLDER SECONDS [SEED [KEPT-FOLDER]]\n", words[0]);
    return 2;
  }
  chance.seed(count > 3 ? std::strtoull(words[3], nullptr, 10) : 1);
  const std::string kept = count > 4 ? words[4] : ".";
  const auto end = Clock::now() + std::chrono::seconds(std::atoi(words[2]));
  std::size_t runs = 0;
  double slowest = 0;
  for (; Clock::now() < end; ++runs) {
    const Bytes bytes = runs < seeds.size() ? seeds[runs] : changed(seeds[below(seeds.size())], seeds);
    keep(kept + "/under-way", bytes);
    const std::clock_t begun = std::clock();
    LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
    const double seconds = static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
    if (seconds > slowest) {
      slowest = seconds;
      keep(kept + "/slowest", bytes);
    }
  }
  std::printf("%zu files, the slowest %.2f s of processor\n", runs, slowest);
  return 0;
}
