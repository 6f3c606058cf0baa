#include "sheets/neighbours.h"

namespace fanwright::sheets {

std::vector<Neighbours> neighbours(const Figures& figures, const std::vector<Item>& items, double reach_um) {
  std::vector<Neighbours> pairs;
  for (std::size_t a = 0; a < items.size(); ++a)
    for (std::size_t b = a + 1; b < items.size(); ++b) {
      const Item &one = items[a], &other = items[b];
      if (one.room != other.room)
        continue;
      const Apart& pair = figures.apart(one.figure, other.figure);
      const double x = (other.x - one.x) * pair.sign, z = (other.z - one.z) * pair.sign;
      const KeepOut& region = *pair.region;
      if (x > region.left() - reach_um && x < region.right() + reach_um && z > region.bottom() - reach_um &&
          z < region.top() + reach_um)
        pairs.push_back({a, b, region.round(0, 0, pair.sign)});
    }
  return pairs;
}

} // namespace fanwright::sheets
