#include "traced/pieces.h"

#include <algorithm>
#include <map>

namespace fanwright::traced {
namespace {

/// A range of heights that boxes take up, as far to the right as the last of them reaches.
struct Range {
  double top = 0, right = 0;
  std::size_t group = 0;
};

} // namespace

// A sweep from left to right. Ranges that a box touches become one, which may reach over more than its boxes: groups
// then count as one that are not, never the other way round.
std::size_t groups_of(std::vector<leaf::Box> boxes) {
  std::sort(boxes.begin(), boxes.end(), [](const leaf::Box& a, const leaf::Box& b) { return a.left < b.left; });
  std::map<double, Range> ranges; // by their lowest height; apart from one another
  std::vector<std::size_t> joined(boxes.size());
  const auto root = [&](std::size_t group) {
    while (joined[group] != group)
      group = joined[group] = joined[joined[group]];
    return group;
  };
  for (std::size_t k = 0; k < boxes.size(); ++k) {
    joined[k] = k;
    double bottom = boxes[k].bottom;
    Range range{boxes[k].top, boxes[k].right, k};
    auto next = ranges.upper_bound(range.top);
    while (next != ranges.begin()) {
      const auto other = std::prev(next);
      if (other->second.top < bottom)
        break;
      if (other->second.right >= boxes[k].left) {
        bottom = std::min(bottom, other->first);
        range.top = std::max(range.top, other->second.top);
        range.right = std::max(range.right, other->second.right);
        joined[root(other->second.group)] = root(k);
      }
      next = ranges.erase(other);
    }
    ranges[bottom] = range;
  }
  std::size_t groups = 0;
  for (std::size_t k = 0; k < boxes.size(); ++k)
    groups += joined[k] == k ? 1 : 0;
  return groups;
}

} // namespace fanwright::traced
