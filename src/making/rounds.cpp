#include "making/making.h"

#include <algorithm>
#include <cassert>

namespace fanwright::making {

namespace {

/// Joins neighbours two by two; `waits` (even, or the number of packets when none waits) is left as it is.
Round joined(const std::vector<Packet>& before, std::size_t waits) {
  Round round;
  for (std::size_t i = 0; i < before.size();) {
    if (i == waits) {
      round.packets.push_back(before[i]);
      i += 1;
      continue;
    }
    const Packet &left = before[i], &right = before[i + 1];
    round.packets.push_back({left.first, left.leaves + right.leaves});
    round.joints.push_back({right.first - 1, left, right});
    i += 2;
  }
  return round;
}

/// Leaves in the largest packet over leaves in the smallest.
double inequality(const Round& round) {
  const auto [least, most] = std::minmax_element(round.packets.begin(), round.packets.end(),
                                                 [](const Packet& a, const Packet& b) { return a.leaves < b.leaves; });
  return static_cast<double>(most->leaves) / least->leaves;
}

/// The round after `before`. Let all packets have between m and 2 m leaves. If one with the most leaves, M <= 2 m,
/// waits, the others make packets of 2 m >= M to 2 M, so the largest is again at most twice the smallest. Only every
/// other packet can wait, so one as good as that is looked for; there is one for every leaf count a design may have
/// (tested). Among equally good ones the last waits: the maker works on from the first leaf.
Round next_round(const std::vector<Packet>& before) {
  if (before.size() % 2 == 0)
    return joined(before, before.size());
  Round best = joined(before, before.size() - 1);
  for (std::size_t waits = before.size() - 1; waits >= 2;) {
    waits -= 2;
    Round other = joined(before, waits);
    if (inequality(other) < inequality(best))
      best = std::move(other);
  }
  return best;
}

} // namespace

std::vector<Round> rounds(int leaves) {
  assert(leaves >= 1);
  std::vector<Packet> packets;
  packets.reserve(static_cast<std::size_t>(leaves));
  for (int leaf = 0; leaf < leaves; ++leaf)
    packets.push_back({leaf, 1});
  std::vector<Round> all;
  while (packets.size() > 1) {
    all.push_back(next_round(packets));
    packets = all.back().packets;
  }
  return all;
}

} // namespace fanwright::making
