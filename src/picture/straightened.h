// Chains of points with needless points left out.
// Based on D. Douglas and T. Peucker, Algorithms for the reduction of the number of points required to represent a
// digitized line (1973).
#pragma once

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace fanwright::picture {

/// The chain (points with x and z) with every point left out that lies within `tolerance` of the chain that remains.
/// Both ends stay.
template <class Point> std::vector<Point> straightened(const std::vector<Point>& chain, double tolerance) {
  if (chain.size() < 3)
    return chain;
  std::vector<bool> kept(chain.size(), false);
  kept.front() = kept.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> open{{0, chain.size() - 1}};
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    const double dx = chain[to].x - chain[from].x, dz = chain[to].z - chain[from].z;
    const double length = dx * dx + dz * dz;
    double worst = tolerance;
    std::size_t bend = 0;
    for (std::size_t k = from + 1; k < to; ++k) {
      const double ex = chain[k].x - chain[from].x, ez = chain[k].z - chain[from].z;
      const double share = length > 0 ? (ex * dx + ez * dz) / length : 0;
      const double along = share < 0 ? 0 : (share > 1 ? 1 : share);
      const double off = std::hypot(ex - along * dx, ez - along * dz);
      if (off > worst) {
        worst = off;
        bend = k;
      }
    }
    if (bend == 0)
      continue;
    kept[bend] = true;
    open.emplace_back(from, bend);
    open.emplace_back(bend, to);
  }
  std::vector<Point> result;
  for (std::size_t k = 0; k < chain.size(); ++k)
    if (kept[k])
      result.push_back(chain[k]);
  return result;
}

} // namespace fanwright::picture
