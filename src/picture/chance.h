// Repeatable random numbers: every pixel has its own seed, and its samples are spread evenly over each square.
// Based on the additive recurrence with the plastic number (a two-dimensional golden ratio) for even spreading, and on
// a 32-bit integer mixing function for the seeds.
#pragma once

#include <cstdint>

namespace fanwright::picture {

/// Two numbers in [0, 1).
struct Pair {
  float u = 0, v = 0;
};

constexpr std::uint32_t mixed(std::uint32_t h) {
  h ^= h >> 16;
  h *= 0x7feb352dU;
  h ^= h >> 15;
  h *= 0x846ca68bU;
  h ^= h >> 16;
  return h;
}

/// The numbers of one sample of one pixel, asked for in a fixed order.
class Chance {
public:
  constexpr Chance(std::uint32_t x, std::uint32_t y, std::uint32_t sample, std::uint32_t seed = 0)
      : seed_(mixed(x + mixed(y + 0x9e3779b9U + 0x85ebca6bU * seed))), sample_(sample) {}

  /// The next pair: evenly spread over the samples of a pixel, independent between pixels.
  constexpr Pair next() {
    const std::uint32_t turn = mixed(seed_ + 2 * question_), other = mixed(seed_ + 2 * question_ + 1);
    // An odd multiplier orders the samples differently for each question, so that questions do not move in step.
    const std::uint32_t index = sample_ * (2 * question_ + 1);
    ++question_;
    return {unit_interval(turn + index * step_u), unit_interval(other + index * step_v)};
  }

private:
  // 2^32 / 1.32471795... and 2^32 / 1.32471795...^2 (plastic number)
  static constexpr std::uint32_t step_u = 3242174889U, step_v = 2447445414U;

  static constexpr float unit_interval(std::uint32_t bits) {
    return static_cast<float>(bits >> 8) * 0x1p-24F; // 24 bits fill a float's mantissa, so 1 is never reached
  }

  std::uint32_t seed_, sample_, question_ = 0;
};

} // namespace fanwright::picture
