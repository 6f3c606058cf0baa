// Outlines of the kinds that are made in the trade, as they should stand opened: drawn from a seed, with 16 to 60
// leaves and rows that open well (lock ratio up to 0.7 where they are widest, less on slender bodies).
#pragma once

#include "design/design.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fanwright::bench {

struct TradeShape {
  std::string family; ///< "broad", "slim", "tiered", "ball", "bell", "urn"
  design::Design design;
};

/// `count` shapes, families in turn. The same seed gives the same shapes on every machine.
std::vector<TradeShape> trade_shapes(std::uint64_t seed, int count);

/// Numbers from a seed that are the same on every machine; those of <random> differ between libraries.
class Draws {
public:
  explicit Draws(std::uint64_t seed) : state_(seed) {}

  double between(double low, double high);
  int whole(int low, int high); ///< both ends included

private:
  std::uint64_t state_;
};

} // namespace fanwright::bench
