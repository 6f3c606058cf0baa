#include "sheets/exchange.h"

#include "sheets/bars.h"

#include <gtest/gtest.h>

#include <algorithm>

using namespace fanwright::sheets;

namespace {

const Extent room{0, 0, 100'000, 200'000};

/// Any two of them are too much for a room; each kind lies in a room of its own.
const std::vector<SearchedKind> too_high{bar(130), bar(120)};
const std::vector<Item> two_by_two{{0, 0, 1000, 0}, {0, 0, 1000, 70'000}, {1, 1, 1000, 0}, {1, 1, 1000, 80'000}};

std::vector<double> heights_by_room(const std::vector<Item>& items, const Figures& figures, std::size_t rooms) {
  std::vector<double> heights(rooms, 0);
  for (const Item& item : items)
    heights[item.room] += static_cast<double>(figures[item.figure].box.height()) / 1000;
  return heights;
}

double overlap(const std::vector<Item>& items, const Figures& figures) {
  double sum = 0;
  for (std::size_t a = 0; a < items.size(); ++a)
    for (std::size_t b = a + 1; b < items.size(); ++b)
      if (const Item& one = items[a], &other = items[b]; one.room == other.room)
        sum += figures.depth(one.figure, other.figure, other.x - one.x, other.z - one.z);
  return sum;
}

} // namespace

TEST(sheets, pieces_change_rooms_until_all_fit) {
  // By hand: in rooms of 200 with 2 mm between bars, 110 goes with 85, 90 with 70 and 33, and 80 with 60 and 55; no
  // other sharing out fits.
  std::vector<SearchedKind> kinds;
  for (const double height : {110, 90, 85, 80, 70, 60, 55, 33})
    kinds.push_back(bar(height));
  const Figures figures(kinds, 2000);
  const std::vector<Item> start{{0, 0, 1000, 0}, {1, 0, 1000, 110'000}, {2, 0, 1000, 60'000},
                                {3, 1, 1000, 0}, {4, 1, 1000, 80'000},  {5, 1, 1000, 130'000},
                                {6, 2, 1000, 0}, {7, 2, 1000, 60'000}};
  int apart = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    Exchange exchange(figures, seed);
    exchange.start({room, room, room}, start);
    const bool done = exchange.run();
    EXPECT_EQ(done, overlap(exchange.items(), figures) == 0);
    ASSERT_EQ(exchange.items().size(), start.size());
    for (std::size_t i = 0; i < start.size(); ++i)
      EXPECT_EQ(exchange.items()[i].figure, start[i].figure);
    if (!done)
      continue;
    ++apart;
    for (const double height : heights_by_room(exchange.items(), figures, 3))
      EXPECT_LE(height, 200);
  }
  EXPECT_GE(apart, 8);
}

TEST(sheets, an_exchange_ends_where_nothing_can_be_exchanged) {
  const std::vector<SearchedKind> kinds{bar(110)};
  const Figures figures(kinds, 2000);
  const std::vector<Item> alike{{0, 0, 1000, 0}, {0, 0, 1000, 80'000}};
  Exchange exchange(figures, 1);
  exchange.start({room}, alike);
  EXPECT_FALSE(exchange.run());
  EXPECT_EQ(exchange.items()[1].z, 80'000);
}

TEST(sheets, an_exchange_ends_where_none_serves) {
  const Figures figures(too_high, 2000);
  Exchange exchange(figures, 1);
  exchange.start({room, room}, two_by_two);
  const double before = overlap(two_by_two, figures);
  EXPECT_FALSE(exchange.run());
  EXPECT_LE(overlap(exchange.items(), figures), 1.1 * before);
  EXPECT_GT(exchange.work(), 0);
}

TEST(sheets, what_has_been_tried_in_two_rooms_is_not_tried_again) {
  // One exchange is all there is: a long bar for a short one.
  const Figures figures(too_high, 2000);
  Exchange exchange(figures, 1);
  exchange.start({room, room}, two_by_two);
  EXPECT_FALSE(exchange.run());
  const std::int64_t before = exchange.work();
  exchange.start({room, room}, two_by_two);
  EXPECT_FALSE(exchange.run());
  EXPECT_GT(before, 0);
  EXPECT_EQ(exchange.work(), before);
  // Rooms of another size are another matter.
  const Extent higher{0, 0, 100'000, 210'000};
  exchange.start({higher, higher}, two_by_two);
  EXPECT_FALSE(exchange.run());
  EXPECT_GT(exchange.work(), before);
}

TEST(sheets, an_exchange_stops_when_told) {
  const Figures figures(too_high, 2000);
  Exchange exchange(figures, 1, [] { return true; });
  exchange.start({room}, {{0, 0, 1000, 0}, {1, 0, 1000, 10'000}});
  EXPECT_FALSE(exchange.run());
  EXPECT_EQ(exchange.work(), 0);
}
