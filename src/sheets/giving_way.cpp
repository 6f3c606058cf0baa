// How a separation ends: what still overlaps a little gives way together.
#include "sheets/separation.h"

#include <algorithm>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr double neighbourhood_um = 2000; // from which giving way may bring two together
constexpr int most_sweeps = 600;
constexpr double share_given = 0.8;   // by each of two, of their overlap: more than half comes to rest sooner
constexpr double about_right_um = 10; // what is shallower is asked exactly
constexpr int looked_back = 20;       // sweeps, over which the deepest overlap has to shrink
constexpr double shrinking = 0.8;     // to that, or what is left will not go

} // namespace

/// Each overlapping pair gives way, by what is known about it or exactly; returns the deepest that was found,
/// micrometres.
double Separation::give_way(const std::vector<Neighbours>& pairs, bool exactly) {
  double deepest = 0;
  for (const auto& [a, b, about] : pairs) {
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
  const std::vector<Neighbours> pairs = neighbours(figures_, items_, neighbourhood_um);
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
