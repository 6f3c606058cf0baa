// How a separation ends: what still overlaps a little gives way together.
#include "sheets/separation.h"

#include <algorithm>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr int most_sweeps = 600;
constexpr double share_given = 0.8;   // by each of two, of their overlap: more than half comes to rest sooner
constexpr double about_right_um = 10; // what is shallower is asked exactly
constexpr int looked_back = 20;       // sweeps, over which the deepest overlap has to shrink
constexpr double shrinking = 0.8;     // to that, or what is left will not go

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
        pairs.push_back({a, b, &pair, region.round(0, 0, pair.sign)});
    }
  return pairs;
}

/// Each overlapping pair gives way, by what is known about it or exactly; returns the deepest that was found,
/// micrometres.
double Separation::give_way(const std::vector<Neighbours>& pairs, bool exactly) {
  double deepest = 0;
  for (const auto& [a, b, pair, about] : pairs) {
    Item &one = items_[a], &other = items_[b];
    const double x = other.x - one.x, z = other.z - one.z;
    const std::optional<Side> side = exactly ? about.side(x, z) : about.about_side(x, z);
    if (!side || side->depth <= 0)
      continue;
    deepest = std::max(deepest, side->depth);
    const double share = share_given * (side->depth + 0.5);
    other.x += share * side->x, other.z += share * side->z;
    one.x -= share * side->x, one.z -= share * side->z;
    bring_in(one);
    bring_in(other);
  }
  return deepest;
}

/// All overlapping pairs give way at a time, again and again; true when that leaves no overlap.
bool Separation::relax() {
  const std::vector<Item> before = items_;
  const std::vector<double> depths_before = depths_;
  const std::vector<Neighbours> pairs = neighbours();
  double before_deepest = std::numeric_limits<double>::infinity();
  bool exactly = false;
  for (int sweeps = 0; sweeps < most_sweeps; ++sweeps) {
    const double deepest = give_way(pairs, exactly);
    work_ += static_cast<std::int64_t>(items_.size());
    if (!exactly && deepest < about_right_um) {
      exactly = true;
      continue;
    }
    if (deepest > 0) {
      if (sweeps % looked_back != 0)
        continue;
      if (deepest > shrinking * before_deepest)
        break;
      before_deepest = deepest;
      continue;
    }
    for (std::size_t i = 0; i < items_.size(); ++i)
      measure(i);
    if (overlap() == 0)
      return true;
    break; // two that were no neighbours have met
  }
  items_ = before, depths_ = depths_before;
  return false;
}

} // namespace fanwright::sheets
