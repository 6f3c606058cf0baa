#include "traced/chunks.h"

#include <array>
#include <zlib.h>

namespace fanwright::fuzz {
namespace {

constexpr std::array<std::uint8_t, 8> signature = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};

std::uint32_t number_at(const Bytes& file, std::size_t at) {
  std::uint32_t number = 0;
  for (std::size_t k = 0; k < 4; ++k)
    number = number << 8 | file[at + k];
  return number;
}

void append(Bytes& file, std::uint32_t number) {
  for (int shift = 24; shift >= 0; shift -= 8)
    file.push_back(static_cast<std::uint8_t>(number >> shift));
}

} // namespace

std::vector<Chunk> chunks_of(const Bytes& file) {
  std::vector<Chunk> chunks;
  std::size_t at = signature.size();
  while (at + 12 <= file.size()) {
    const std::size_t length = number_at(file, at);
    if (length > file.size() - at - 12)
      break;
    const auto kind = file.begin() + static_cast<std::ptrdiff_t>(at + 4);
    const auto held = kind + 4;
    chunks.push_back({{kind, held}, {held, held + static_cast<std::ptrdiff_t>(length)}});
    at += length + 12;
  }
  return chunks;
}

Bytes file_of(const std::vector<Chunk>& chunks) {
  Bytes file(signature.begin(), signature.end());
  for (const Chunk& chunk : chunks) {
    append(file, static_cast<std::uint32_t>(chunk.held.size()));
    const std::size_t summed = file.size();
    file.insert(file.end(), chunk.kind.begin(), chunk.kind.end());
    file.insert(file.end(), chunk.held.begin(), chunk.held.end());
    append(file, static_cast<std::uint32_t>(crc32(0, file.data() + summed, static_cast<uInt>(file.size() - summed))));
  }
  return file;
}

Bytes unpacked(const Bytes& stream) {
  constexpr std::size_t most = 16u << 20;
  Bytes bytes(most);
  z_stream state{};
  if (inflateInit(&state) != Z_OK)
    return {};
  state.next_in = const_cast<Bytef*>(stream.data());
  state.avail_in = static_cast<uInt>(stream.size());
  state.next_out = bytes.data();
  state.avail_out = static_cast<uInt>(most);
  inflate(&state, Z_FINISH);
  bytes.resize(most - state.avail_out);
  inflateEnd(&state);
  return bytes;
}

Bytes packed(const Bytes& bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  Bytes stream(size);
  compress2(stream.data(), &size, bytes.data(), static_cast<uLong>(bytes.size()), 1);
  stream.resize(size);
  return stream;
}

} // namespace fanwright::fuzz
