// Numbers as the bytes of binary files that put the lowest byte first.
#pragma once

#include <bit>
#include <cstdint>
#include <string>

namespace fanwright::picture {

template <class Whole> void put_whole(std::string& bytes, Whole value) {
  for (unsigned shift = 0; shift < 8 * sizeof(Whole); shift += 8)
    bytes += static_cast<char>(static_cast<unsigned char>((static_cast<std::uint64_t>(value) >> shift) & 0xFFU));
}

inline void put_float(std::string& bytes, double value) {
  put_whole(bytes, std::bit_cast<std::uint32_t>(static_cast<float>(value)));
}

} // namespace fanwright::picture
