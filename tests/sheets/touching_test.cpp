#include "sheets/touching.h"

#include "sheets/exact.h"
#include "sheets/strip.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

using namespace fanwright::sheets;
using fanwright::leaf::Ring;

namespace {

SearchedKind kind(const Ring& ring) { return {profile_of(ring), {{0, false}, {180, false}}}; }

Ring bar(double width_mm, double height_mm) { return {{0, 0}, {width_mm, 0}, {width_mm, height_mm}, {0, height_mm}}; }

const Ring diamond{{0, 60}, {60, 0}, {120, 60}, {60, 120}};

std::vector<Shape> laid_out(const std::vector<Item>& items, const std::vector<SearchedKind>& kinds,
                            const Figures& figures) {
  std::vector<Shape> shapes;
  for (const Item& item : items) {
    const Figure& figure = figures[item.figure];
    EXPECT_EQ(item.x, std::round(item.x));
    EXPECT_EQ(item.z, std::round(item.z));
    shapes.push_back(
        moved(laid(kinds[figure.kind].profile.shape, figure.stance), {std::llround(item.x), std::llround(item.z)}));
  }
  return shapes;
}

} // namespace

TEST(sheets, bars_that_fill_a_strip_exactly_are_laid_edge_to_edge) {
  // By hand: eight bars of 125 mm fill the height of 1000 mm, two of them end to end are 600 mm long.
  const std::vector<SearchedKind> kinds{kind(bar(300, 125))};
  const Touching touching(kinds);
  StripWish wish;
  wish.height_um = 1'000'000;
  wish.kinds.assign(16, 0);
  wish.work = 4'000'000;
  wish.mended = [&](const std::vector<Item>& items, const Extent& room) { return touching.apart(items, room); };
  const Strip strip = shortest_strip(touching.searched(), wish);
  ASSERT_EQ(strip.items.size(), 16u);
  EXPECT_FALSE(first_conflict(laid_out(strip.items, kinds, touching.searched()), 0));
  EXPECT_GE(strip.length_um, 600'000);
  EXPECT_LE(strip.length_um, 600'010);
}

TEST(sheets, pieces_sunk_into_each_other_come_apart) {
  const std::vector<SearchedKind> kinds{kind(bar(100, 50)), kind(diamond)};
  const Touching touching(kinds);
  const Figures& figures = touching.searched();
  const std::size_t diamonds = figures.first(1);
  // Two bars fill the height; three diamonds stand behind them, each a little in what is before it.
  const std::vector<Item> sunk{{0, 0, 0, 0},
                               {0, 0, 12, 49'990},
                               {diamonds, 0, 99'980, -8'000},
                               {diamonds, 0, 219'960, -9'000},
                               {diamonds, 0, 279'950, 50'950}};
  const Extent room{0, -20'000, 400'000, 180'000};
  const std::vector<Item> apart = touching.apart(sunk, room).items;
  ASSERT_EQ(apart.size(), sunk.size());
  EXPECT_FALSE(first_conflict(laid_out(apart, kinds, figures), 0));
  for (std::size_t i = 0; i < sunk.size(); ++i) {
    EXPECT_NEAR(apart[i].x, sunk[i].x, 200);
    EXPECT_NEAR(apart[i].z, sunk[i].z, 200);
    const Extent places = places_in(room, figures[sunk[i].figure].box);
    EXPECT_GE(apart[i].z, static_cast<double>(places.bottom));
    EXPECT_LE(apart[i].z, static_cast<double>(places.top));
  }
}

TEST(sheets, pieces_that_fill_more_than_the_height_do_not_come_apart) {
  // Three bars of 50 mm stand 150 mm high; the room is a hundredth of a millimetre lower.
  const std::vector<SearchedKind> kinds{kind(bar(100, 50))};
  const Touching touching(kinds);
  const std::vector<Item> stacked{{0, 0, 0, 0}, {0, 0, 0, 49'995}, {0, 0, 0, 99'990}};
  EXPECT_TRUE(touching.apart(stacked, {0, 0, 110'000, 149'990}).items.empty());
  const std::vector<Item> apart = touching.apart(stacked, {0, 0, 110'000, 150'000}).items;
  ASSERT_EQ(apart.size(), 3u);
  EXPECT_FALSE(first_conflict(laid_out(apart, kinds, touching.searched()), 0));
}
