// Photos, broken in any way; the signature is put right, so that they are read as photos at all.
#include "traced/taken.h"

#include <algorithm>
#include <array>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr std::array<std::uint8_t, 3> signature = {0xff, 0xd8, 0xff}; // ITU-T T.81, table B.1
  std::vector<std::uint8_t> bytes(data, data + size);
  bytes.resize(std::max(bytes.size(), signature.size()));
  std::copy(signature.begin(), signature.end(), bytes.begin());
  fanwright::fuzz::take(bytes.data(), bytes.size());
  return 0;
}
