// Fans drawn at random that can be made.
#pragma once

#include "fan/fan.h"
#include "fan/space.h"

#include <random>
#include <vector>

namespace fanwright::fan {

/// Straight fans of all proportions, wings and discs, until `count` of them could be made.
inline std::vector<Made> random_fans(int count, unsigned seed) {
  std::mt19937 chance(seed);
  const auto between = [&](double low, double high) {
    return low + (high - low) * (static_cast<double>(chance()) / 4294967296.0);
  };
  std::vector<Made> found;
  while (static_cast<int>(found.size()) < count) {
    Fan fan;
    fan.depth_mm = between(4, 20);
    fan.pleats = static_cast<int>(between(4, 50));
    fan.paper.caliper_mm = between(0.08, 0.25);
    fan.edge = StraightEdge{between(20, 200), between(0, 1) < 0.4 ? 360 : between(30, 350)};
    auto made = make(fan);
    if (auto* good = std::get_if<Made>(&made)) {
      found.push_back(std::move(*good));
    }
  }
  return found;
}

} // namespace fanwright::fan
