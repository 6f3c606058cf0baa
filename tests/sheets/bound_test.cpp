#include "sheets/bound.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

using namespace fanwright::sheets;
using fanwright::leaf::Ring;

namespace {

Ring disc(double diameter) {
  Ring ring;
  for (int i = 0; i < 360; ++i)
    ring.push_back(
        {diameter / 2 * std::cos(i * std::numbers::pi / 180), diameter / 2 * std::sin(i * std::numbers::pi / 180)});
  return ring;
}

Extent room(double width_mm, double height_mm) {
  return {0, 0, std::llround(width_mm * 1000), std::llround(height_mm * 1000)};
}

} // namespace

TEST(sheets, discs_are_bounded_as_oler_says) {
  // By hand: discs of 30, gap 2, on 198 x 285: K is 168 x 255, d 32: 2 / sqrt(3) 42840 / 1024 + 423 / 32 + 1 = 62.5; by
  // area alone (198 285 + 2 483 + pi) / (pi 16^2) = 71.4.
  const Profile piece = profile_of(disc(30));
  EXPECT_EQ(most_by_discs(piece, room(198, 285), 2000), 62u);
  EXPECT_EQ(most_by_area(piece, room(198, 285), 2000), 71u);
}

TEST(sheets, the_bound_by_discs_lets_through_what_there_is) {
  // By hand: in one row a disc lies every 32 mm: 30 + 4 32 = 158 takes five. The disc sought on the piece is the
  // largest to 0.02 mm, so less than 158 by 5 times twice that still seems to take five.
  const Profile piece = profile_of(disc(30));
  EXPECT_EQ(most_by_discs(piece, room(158.1, 30.01), 2000), 5u);
  EXPECT_EQ(most_by_discs(piece, room(157.5, 30), 2000), 4u);
  // Three mutually touching discs of 30 with gap 2 in the smallest upright box: 62 x (30 + 32 sqrt(3) / 2).
  EXPECT_GE(most_by_discs(piece, room(62.1, 57.8), 2000), 3u);
}

TEST(sheets, a_hole_leaves_only_the_disc_beside_it) {
  // By hand: a frame 60 x 60 with a hole 40 x 40: discs of 10 in its sides, 12 apart with the gap.
  const Profile frame = profile_of({{0, 0}, {60, 0}, {60, 60}, {0, 60}}, {{{10, 10}, {50, 10}, {50, 50}, {10, 50}}});
  const Profile whole = profile_of({{0, 0}, {60, 0}, {60, 60}, {0, 60}});
  EXPECT_GT(most_by_discs(frame, room(200, 200), 2000), most_by_discs(whole, room(200, 200), 2000));
}
