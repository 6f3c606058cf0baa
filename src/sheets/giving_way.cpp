// How a separation ends: what still overlaps a little gives way together.
#include "sheets/separation.h"

#include <algorithm>

namespace fanwright::sheets {

namespace {

constexpr int most_sweeps = 200;

} // namespace

/// Pairs so near to each other that giving way may bring them together.
std::vector<Separation::Neighbours> Separation::neighbours() const {
  constexpr double slack_um = 2000;
  std::vector<Neighbours> pairs;
  for (std::size_t a = 0; a < items_.size(); ++a)
    for (std::size_t b = a + 1; b < items_.size(); ++b) {
      const Item &one = items_[a], &other = items_[b];
      if (one.room != other.room)
        continue;
      const Apart& pair = figures_.apart(one.figure, other.figure);
      const double x = (other.x - one.x) * pair.sign, z = (other.z - one.z) * pair.sign;
      const KeepOut& region = *pair.region;
      if (x > region.left() - slack_um && x < region.right() + slack_um && z > region.bottom() - slack_um &&
          z < region.top() + slack_um)
        pairs.push_back({a, b, &pair});
    }
  return pairs;
}

/// Each overlapping pair gives way by half its depth; returns the deepest that was found, micrometres.
double Separation::give_way(const std::vector<Neighbours>& pairs) {
  double deepest = 0;
  for (const auto& [a, b, pair] : pairs) {
    Item &one = items_[a], &other = items_[b];
    const Push push = pair->region->push((other.x - one.x) * pair->sign, (other.z - one.z) * pair->sign);
    if (push.depth <= 0)
      continue;
    deepest = std::max(deepest, push.depth);
    const double half = 0.5 * (push.depth + 0.5) / push.depth * pair->sign;
    other.x += half * push.x, other.z += half * push.z;
    one.x -= half * push.x, one.z -= half * push.z;
    bring_in(one);
    bring_in(other);
  }
  return deepest;
}

/// All overlapping pairs give way at a time, again and again; true when that leaves no overlap.
bool Separation::relax() {
  const std::vector<Item> before = items_;
  const std::vector<Neighbours> pairs = neighbours();
  for (int sweeps = 0; sweeps < most_sweeps; ++sweeps) {
    const double deepest = give_way(pairs);
    work_ += static_cast<std::int64_t>(items_.size());
    if (deepest > 0)
      continue;
    for (std::size_t i = 0; i < items_.size(); ++i)
      measure(i);
    if (overlap() == 0)
      return true;
    break; // two that were no neighbours have met
  }
  items_ = before;
  for (std::size_t i = 0; i < items_.size(); ++i)
    measure(i);
  return false;
}

} // namespace fanwright::sheets
