#include "sheets/strip.h"

#include <gtest/gtest.h>

using namespace fanwright::sheets;

TEST(sheets, a_strip_on_which_all_pieces_stand_in_one_column_ends_with_the_widest) {
  const std::vector<SearchedKind> kinds{
      {profile_of({{0, 0}, {100, 0}, {100, 100}, {0, 100}}), {{0, false}, {180, false}}},
      {profile_of({{0, 0}, {60, 0}, {60, 90}, {0, 90}}), {{0, false}, {90, false}}}};
  const Figures figures(kinds, 2000);
  StripWish wish;
  wish.height_um = 1'000'000;
  wish.kinds = {0, 0, 0, 1, 1};
  wish.work = 100'000;
  const Strip strip = shortest_strip(figures, wish);
  EXPECT_EQ(strip.items.size(), 5u);
  EXPECT_EQ(strip.length_um, 100'000);
}

TEST(sheets, a_strip_may_end_shorter_than_a_piece_that_stands_up) {
  // By hand: two bars of 300 x 50 stand beside each other, 102 mm with the gap, on a roll 400 mm high.
  const std::vector<SearchedKind> kinds{
      {profile_of({{0, 0}, {300, 0}, {300, 50}, {0, 50}}), {{0, false}, {90, false}}}};
  const Figures figures(kinds, 2000);
  StripWish wish;
  wish.height_um = 400'000;
  wish.kinds = {0, 0};
  wish.work = 400'000;
  const Strip strip = shortest_strip(figures, wish);
  EXPECT_EQ(strip.items.size(), 2u);
  EXPECT_LE(strip.length_um, 103'000);
}
