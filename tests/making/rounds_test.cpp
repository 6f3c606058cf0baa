#include "making/making.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace fanwright::making {
namespace {

/// Every leaf count a design may have.
std::vector<int> leaf_counts() {
  std::vector<int> counts;
  for (int leaves = 2; leaves <= 400; ++leaves)
    counts.push_back(leaves);
  return counts;
}

std::vector<Packet> singles(int leaves) {
  std::vector<Packet> packets;
  packets.reserve(static_cast<std::size_t>(leaves));
  for (int leaf = 0; leaf < leaves; ++leaf)
    packets.push_back({leaf, 1});
  return packets;
}

TEST(making, every_round_holds_each_leaf_once_and_in_order) {
  for (const int leaves : leaf_counts()) {
    for (const Round& round : rounds(leaves)) {
      int next = 0;
      for (const Packet& packet : round.packets) {
        ASSERT_EQ(packet.first, next) << leaves;
        ASSERT_GE(packet.leaves, 1) << leaves;
        next += packet.leaves;
      }
      ASSERT_EQ(next, leaves);
    }
  }
}

TEST(making, every_joint_is_glued_once) {
  for (const int leaves : leaf_counts()) {
    std::vector<int> glued(static_cast<std::size_t>(leaves), 0);
    for (const Round& round : rounds(leaves))
      for (const Joint& joint : round.joints)
        ++glued.at(static_cast<std::size_t>(joint.leaf));
    EXPECT_EQ(glued.back(), 0) << "the seam is no joint of a round";
    glued.pop_back();
    EXPECT_TRUE(std::ranges::all_of(glued, [](int times) { return times == 1; })) << leaves;
  }
}

TEST(making, a_round_joins_packets_of_the_round_before_and_only_those) {
  for (const int leaves : leaf_counts()) {
    std::vector<Packet> before = singles(leaves);
    for (const Round& round : rounds(leaves)) {
      std::vector<Packet> expected = before;
      for (const Joint& joint : round.joints) {
        const auto left = std::ranges::find(expected, joint.left);
        ASSERT_NE(left, expected.end()) << leaves;
        ASSERT_EQ(*(left + 1), joint.right) << leaves;
        ASSERT_EQ(joint.leaf + 1, joint.right.first) << leaves;
        left->leaves += joint.right.leaves;
        expected.erase(left + 1);
      }
      ASSERT_EQ(round.packets, expected) << leaves;
      before = round.packets;
    }
    ASSERT_EQ(before.size(), 1U) << leaves;
  }
}

TEST(making, nothing_is_glued_twice_in_one_round) {
  for (const int leaves : leaf_counts()) {
    for (const Round& round : rounds(leaves)) {
      for (std::size_t i = 1; i < round.joints.size(); ++i)
        ASSERT_GE(round.joints[i].left.first, round.joints[i - 1].right.first + round.joints[i - 1].right.leaves);
    }
  }
}

TEST(making, packets_of_a_round_differ_by_at_most_a_factor_of_two) {
  for (const int leaves : leaf_counts()) {
    for (const Round& round : rounds(leaves)) {
      const auto [least, most] = std::ranges::minmax(round.packets, {}, &Packet::leaves);
      EXPECT_LE(most.leaves, 2 * least.leaves) << leaves;
    }
  }
}

TEST(making, rounds_are_as_few_as_pairing_allows) {
  for (const int leaves : leaf_counts())
    EXPECT_EQ(rounds(leaves).size(), static_cast<std::size_t>(std::ceil(std::log2(leaves)))) << leaves;
  EXPECT_TRUE(rounds(1).empty());
}

TEST(making, the_first_round_makes_pairs) {
  for (const int leaves : leaf_counts()) {
    const Round first = rounds(leaves).front();
    EXPECT_EQ(first.joints.size(), static_cast<std::size_t>(leaves / 2)) << leaves;
    EXPECT_EQ(first.packets.size(), static_cast<std::size_t>((leaves + 1) / 2)) << leaves;
  }
}

TEST(making, twenty_leaves_become_pairs_fours_eights_and_one) {
  std::vector<std::vector<int>> sizes;
  for (const Round& round : rounds(20)) {
    sizes.emplace_back();
    for (const Packet& packet : round.packets)
      sizes.back().push_back(packet.leaves);
  }
  // 16 + 4, as one might go on from 8 + 8 + 4, would differ by a factor of four.
  const std::vector<std::vector<int>> expected = {
      {2, 2, 2, 2, 2, 2, 2, 2, 2, 2}, {4, 4, 4, 4, 4}, {8, 8, 4}, {8, 12}, {20}};
  EXPECT_EQ(sizes, expected);
}

} // namespace
} // namespace fanwright::making
