// Random numbers from a seed; the same on every machine. Based on: Steele, Lea, Flood, "Fast splittable pseudorandom
// number generators", OOPSLA 2014 (SplitMix64).
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace fanwright::sheets {

class Chance {
public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next() {
    std::uint64_t mixed = state_ += 0x9e3779b97f4a7c15u;
    mixed = (mixed ^ (mixed >> 30)) * 0xbf58476d1ce4e5b9u;
    mixed = (mixed ^ (mixed >> 27)) * 0x94d049bb133111ebu;
    return mixed ^ (mixed >> 31);
  }

  /// 0 <= share < 1.
  double share() { return static_cast<double>(next() >> 11) * 0x1p-53; }
  double between(double least, double most) { return least + (most - least) * share(); }

  /// 0 .. count - 1; count at least 1.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(share() * static_cast<double>(count)); }

  template <class Value> void shuffle(std::vector<Value>& values) {
    for (std::size_t i = values.size(); i > 1; --i)
      std::swap(values[i - 1], values[below(i)]);
  }

private:
  std::uint64_t state_;
};

} // namespace fanwright::sheets
