#include "sheets/figures.h"
#include "sheets/fullest.h"

#include <gtest/gtest.h>

using namespace fanwright::sheets;

namespace {

const fanwright::leaf::Ring square{{0, 0}, {40, 0}, {40, 40}, {0, 40}};

OneKind square_in(std::vector<Stance> stances) { return {profile_of(square), shape_of(square), std::move(stances)}; }

} // namespace

TEST(sheets, figures_that_share_what_is_known_have_the_same_regions) {
  const auto known = std::make_shared<Known>();
  const std::vector<SearchedKind> kinds{{profile_of(square), {{0, false}, {180, false}}}};
  const Figures first(kinds, 2000, known), again(kinds, 2000, known), wider(kinds, 3000, known);
  EXPECT_EQ(first.apart(0, 1).region, again.apart(0, 1).region);
  // By hand: one square right of the other, 41 mm on, is 1 mm short of a gap of 2 and 2 mm short of a gap of 3.
  EXPECT_NEAR(again.depth(0, 0, 41'000, 0), 1000 + search_slack_um, 1);
  EXPECT_NEAR(wider.depth(0, 0, 41'000, 0), 2000 + search_slack_um, 1);
}

TEST(sheets, a_known_pattern_is_not_taken_for_other_turns_or_rooms) {
  // A square looks the same in every turn; what is laid must still keep to the turns allowed.
  const auto known = std::make_shared<Known>();
  const OneKind upright = square_in({{0, false}, {180, false}}), sideways = square_in({{90, false}, {270, false}});
  const Extent room{0, 0, 130'000, 130'000}, smaller{0, 0, 90'000, 130'000};
  const Effort patterns_alone{0, 1, {}, {}};
  // By hand: 3 x 40 + 2 gaps of 2 are 124, 2 x 40 + 2 are 82.
  EXPECT_EQ(fullest_sheet(upright, room, {2000, 2000}, 9, patterns_alone, known).pieces.size(), 9u);
  EXPECT_EQ(fullest_sheet(upright, smaller, {2000, 2000}, 9, patterns_alone, known).pieces.size(), 6u);
  const auto turned = fullest_sheet(sideways, room, {2000, 2000}, 9, patterns_alone, known).pieces;
  EXPECT_EQ(turned.size(), 9u);
  for (const Laid& one : turned)
    EXPECT_EQ(one.stance.turn_deg % 180, 90);
}
