#include "sheets/separation.h"

#include "sheets/bars.h"

#include <gtest/gtest.h>

#include <algorithm>

using namespace fanwright::sheets;

namespace {

// By hand: two bars of 110 mm do not fit a room of 200 mm, nor do two of 85 and one of 110; one of each does.
const std::vector<SearchedKind> kinds{bar(110), bar(85)};
const std::vector<Extent> rooms{{0, 0, 100'000, 200'000}, {0, 0, 100'000, 200'000}};
const std::vector<Item> tall_with_tall{{0, 0, 1000, 0}, {0, 0, 1000, 90'000}, {1, 1, 1000, 0}, {1, 1, 1000, 100'000}};

bool comes_apart(int trades, std::uint64_t seed) {
  const Figures figures(kinds, 2000);
  Separation separation(figures, seed);
  separation.start(rooms, tall_with_tall);
  if (!separation.separate({1, 1, trades}))
    return false;
  const std::vector<Item>& items = separation.items();
  EXPECT_NE(items[0].room, items[1].room);
  EXPECT_NE(items[2].room, items[3].room);
  EXPECT_EQ(separation.overlap(), 0);
  return true;
}

} // namespace

TEST(sheets, pieces_trade_places_where_neither_alone_finds_a_better_one) {
  int with = 0, without = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed)
    with += comes_apart(4, seed), without += comes_apart(0, seed);
  EXPECT_GE(with, 15);
  EXPECT_LT(without, with / 2);
}

TEST(sheets, a_trade_that_does_not_serve_leaves_everything_as_it_was) {
  // Too much for both rooms: no trade helps, and what is found is no worse than what was there.
  const std::vector<SearchedKind> too_tall{bar(130), bar(120)};
  const Figures figures(too_tall, 2000);
  Separation separation(figures, 1);
  separation.start(rooms, tall_with_tall);
  const double before = separation.overlap();
  EXPECT_FALSE(separation.separate({5, 1, 4}));
  EXPECT_LE(separation.overlap(), before);
  double overlap = 0;
  for (std::size_t a = 0; a < 4; ++a)
    for (std::size_t b = a + 1; b < 4; ++b)
      if (const Item& one = separation.items()[a], &other = separation.items()[b]; one.room == other.room)
        overlap += figures.depth(one.figure, other.figure, other.x - one.x, other.z - one.z);
  EXPECT_DOUBLE_EQ(separation.overlap(), overlap);
}

TEST(sheets, weights_of_an_overlap_that_stays_do_not_outgrow_numbers) {
  const std::vector<SearchedKind> too_tall{bar(130), bar(120)};
  const Figures figures(too_tall, 2000);
  Separation separation(figures, 1);
  separation.start(rooms, tall_with_tall);
  EXPECT_FALSE(separation.separate({1000, 1, 4}));
  for (std::size_t i = 0; i < tall_with_tall.size(); ++i)
    EXPECT_EQ(figures[separation.items()[i].figure].kind, figures[tall_with_tall[i].figure].kind);
}
