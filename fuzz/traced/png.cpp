// Pictures, broken in any way but with check sums that agree, so that what lies behind them is reached.
#include "traced/chunks.h"
#include "traced/taken.h"

#include <algorithm>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t room);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fanwright::fuzz::take(data, size);
  return 0;
}

/// Every second time what a chunk holds is changed and its sum put right, else any byte.
extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t room, unsigned seed) {
  namespace fuzz = fanwright::fuzz;
  std::vector<fuzz::Chunk> chunks = fuzz::chunks_of({data, data + size});
  if (seed % 8 == 0 || chunks.empty())
    return LLVMFuzzerMutate(data, size, room);
  fuzz::Chunk& chunk = chunks[(seed / 8) % chunks.size()];
  const bool packed = chunk.kind == "IDAT" && seed % 4 == 1;
  std::vector<std::uint8_t> held = packed ? fuzz::unpacked(chunk.held) : chunk.held;
  const std::size_t before = held.size();
  held.resize(before + 64);
  held.resize(LLVMFuzzerMutate(held.data(), before, held.size()));
  chunk.held = packed ? fuzz::packed(held) : held;
  const std::vector<std::uint8_t> file = fuzz::file_of(chunks);
  if (file.size() > room)
    return LLVMFuzzerMutate(data, size, room);
  std::copy(file.begin(), file.end(), data);
  return file.size();
}
