// The parts of a PNG file (ISO/IEC 15948, section 5.3): taken apart and put together with sums that agree.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace fanwright::fuzz {

using Bytes = std::vector<std::uint8_t>;

struct Chunk {
  std::string kind; ///< four letters
  Bytes held;
};

/// As many whole chunks as there are, whatever their sums say.
std::vector<Chunk> chunks_of(const Bytes& file);
Bytes file_of(const std::vector<Chunk>& chunks);

/// Of a zlib stream as much as can be had, at most 16 MB; and the stream of bytes.
Bytes unpacked(const Bytes& stream);
Bytes packed(const Bytes& bytes);

} // namespace fanwright::fuzz
