#include "oracle.h"
#include "sheets/chance.h"
#include "sheets/exact.h"
#include "sheets/figures.h"
#include "sheets/keep_out.h"
#include "sheets/no_fit.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

using namespace fanwright::sheets;
using fanwright::leaf::Ring;

namespace {

Shape square(std::int64_t side, Spot at = {}) { return moved({{{0, 0}, {side, 0}, {side, side}, {0, side}}, {}}, at); }

/// A star whose corners lie on a coarse grid, so that edges and corners of two of them often meet.
Loop coarse_star() {
  constexpr std::array<Spot, 8> ways{{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}};
  Loop loop;
  for (const Spot way : ways) {
    const int far = *rc::gen::inRange(1, 4);
    loop.push_back({far * way.x, far * way.z});
  }
  return loop;
}

Ring plain_ring_of(const Loop& loop) {
  Ring ring;
  for (const Spot& spot : loop)
    ring.push_back({static_cast<double>(spot.x), static_cast<double>(spot.z)});
  return ring;
}

/// A star with 3 to 12 corners and deep hollows, 20 to 90 mm across.
Ring star() {
  const int corners = *rc::gen::inRange(3, 12);
  Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double radius = *rc::gen::inRange(100, 450) / 10.0, angle = 2 * std::numbers::pi * i / corners;
    ring.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return ring;
}

Ring ring_of(const Loop& loop) {
  Ring ring;
  for (const Spot& spot : loop)
    ring.push_back({static_cast<double>(spot.x) / 1000, static_cast<double>(spot.z) / 1000});
  return ring;
}

} // namespace

TEST(sheets, a_gap_is_kept_to_the_micrometre) {
  EXPECT_TRUE(apart(square(1000), square(1000, {1200, 0}), 200));
  EXPECT_FALSE(apart(square(1000), square(1000, {1199, 0}), 200));
  // Corner to corner 3, 4, 5.
  EXPECT_TRUE(apart(square(1000), square(1000, {1300, 1400}), 500));
  EXPECT_FALSE(apart(square(1000), square(1000, {1300, 1399}), 500));
}

TEST(sheets, overlap_is_seen_however_the_outlines_meet) {
  EXPECT_FALSE(apart(square(1000), square(1000), 1));                                     // the same place
  EXPECT_FALSE(apart(square(1000), square(1000, {1000, 0}), 1));                          // sharing an edge
  EXPECT_FALSE(apart(square(1000), square(200, {300, 300}), 1));                          // one within the other
  EXPECT_FALSE(apart(square(200, {300, 300}), square(1000), 1));                          // and the other way round
  EXPECT_FALSE(apart(square(1000), square(1000, {500, -500}), 1));                        // crossing
  EXPECT_FALSE(apart({{{0, 0}, {9, 0}, {0, 9}}, {}}, {{{0, 0}, {9, 9}, {0, 9}}, {}}, 1)); // sharing an edge's part
}

TEST(sheets, without_a_gap_pieces_may_touch) {
  EXPECT_TRUE(apart(square(1000), square(1000, {1000, 0}), 0));         // edge to edge
  EXPECT_TRUE(apart(square(1000), square(1000, {1000, 300}), 0));       // along a part of it
  EXPECT_TRUE(apart(square(1000), square(1000, {1000, 1000}), 0));      // corner to corner
  EXPECT_FALSE(apart(square(1000), square(1000, {999, 0}), 0));         // a micrometre too near
  EXPECT_FALSE(apart(square(1000), square(1000), 0));                   // the same place
  EXPECT_FALSE(apart(square(1000), square(200, {300, 300}), 0));        // one within the other
  EXPECT_FALSE(apart(square(1000), square(200, {0, 300}), 0));          // within, at its edge
  EXPECT_FALSE(apart(square(1000), {{{0, 0}, {9, 9}, {0, 9}}, {}}, 0)); // within, at its corner
  const Shape notched{{{0, 0}, {900, 0}, {900, 900}, {600, 900}, {600, 300}, {300, 300}, {300, 900}, {0, 900}}, {}};
  EXPECT_TRUE(apart(notched, square(300, {300, 300}), 0)); // what fills a notch
  EXPECT_FALSE(apart(notched, square(301, {300, 300}), 0));
  EXPECT_FALSE(apart(notched, square(300, {300, 299}), 0));
  const Shape frame{square(1000).outline, {{{100, 100}, {100, 900}, {900, 900}, {900, 100}}}};
  EXPECT_TRUE(apart(frame, square(800, {100, 100}), 0)); // what fills a hole
  EXPECT_FALSE(apart(square(801, {100, 100}), frame, 0));
}

RC_GTEST_PROP(sheets, pieces_that_touch_agree_with_the_independent_relation, ()) {
  const Shape a{coarse_star(), {}};
  const Shape b = moved({coarse_star(), {}}, {*rc::gen::inRange(-5, 5), *rc::gen::inRange(-5, 5)});
  const Polygon one(plain_ring_of(a.outline)), other(plain_ring_of(b.outline));
  const bool meet = one.distance(other) == 0, share = one.shares_area_with(other);
  RC_TAG(!meet ? "apart" : share ? "overlapping" : "touching");
  RC_ASSERT(apart(a, b, 0) == !share);
}

TEST(sheets, a_piece_may_lie_in_a_hole_with_room_around_it) {
  const Shape frame{square(1000).outline, {{{100, 100}, {100, 900}, {900, 900}, {900, 100}}}};
  EXPECT_TRUE(apart(frame, square(600, {200, 200}), 100));
  EXPECT_FALSE(apart(frame, square(601, {200, 200}), 100));
  EXPECT_FALSE(apart(frame, square(850, {75, 75}), 1));
  const auto region = no_fit_region(frame, square(600));
  ASSERT_EQ(region.size(), 2u);
  EXPECT_EQ(doubled_area(region[0]), 2 * 1600 * 1600);
  EXPECT_EQ(doubled_area(region[1]), -2 * 200 * 200);
}

RC_GTEST_PROP(sheets, the_exact_check_agrees_with_the_independent_distance, ()) {
  const Shape a = shape_of(star()), b = shape_of(star());
  const Shape at = moved(b, {*rc::gen::inRange(-60'000, 60'000), *rc::gen::inRange(-60'000, 60'000)});
  const double distance = Polygon(ring_of(a.outline)).distance(Polygon(ring_of(at.outline)));
  const auto gap = *rc::gen::inRange<std::int64_t>(1, 9000);
  constexpr double rounding_mm = 1e-9; // of the library's square roots
  RC_ASSERT(apart(a, at, gap) == (distance >= static_cast<double>(gap) / 1000 - rounding_mm));
}

RC_GTEST_PROP(sheets, the_no_fit_region_is_where_pieces_overlap, ()) {
  const Shape a = shape_of(star()),
              b = laid(shape_of(star()), {*rc::gen::element(0, 90, 180, 270), *rc::gen::element(false, true)});
  const std::vector<Loop> region = no_fit_region(a, b);
  // The region's corners are rounded to whole micrometres, so the edge of it is right to about one.
  const KeepOut keep_out(region, 0), grown(region, 1);
  for (int i = 0; i < 20; ++i) {
    const Spot move{*rc::gen::inRange(-90'000, 90'000), *rc::gen::inRange(-90'000, 90'000)};
    const double x = static_cast<double>(move.x), z = static_cast<double>(move.z);
    const Shape there = moved(b, move);
    if (apart(a, there, 2))
      RC_ASSERT(keep_out.depth(x, z) < 2);
    else if (Polygon(ring_of(a.outline)).distance(Polygon(ring_of(there.outline))) == 0)
      RC_ASSERT(grown.depth(x, z) > 0);
  }
}

RC_GTEST_PROP(sheets, the_quick_depth_is_right_where_shallow_and_off_by_a_cell_at_most, ()) {
  const KeepOut keep_out(no_fit_region(shape_of(star()), shape_of(star())), 2000);
  Chance chance(*rc::gen::arbitrary<std::uint64_t>());
  constexpr double planes_um = 2; // what serves a cell is right to that at nine places of it
  int shallow = 0, off = 0;
  for (int i = 0; i < 2000; ++i) {
    const double x = chance.between(-90'000, 90'000), z = chance.between(-90'000, 90'000);
    const double depth = keep_out.depth(x, z), about = keep_out.round(0, 0, 1).about_depth(x, z);
    if (depth >= keep_out.grain() / 2) {
      RC_ASSERT(std::abs(about - depth) <= keep_out.grain() + planes_um);
      continue;
    }
    // No place is farther than a quarter of the grain from one of the nine, and neither depth changes faster than it.
    RC_ASSERT(std::abs(about - depth) <= keep_out.grain() / 2 + planes_um);
    ++shallow;
    off += std::abs(about - depth) > 2 * planes_um ? 1 : 0;
  }
  RC_ASSERT(off <= shallow / 100);
}

RC_GTEST_PROP(sheets, the_quick_side_leads_out, ()) {
  // With next to no reach: grown by more, a push may end near another edge.
  const KeepOut keep_out(no_fit_region(shape_of(star()), shape_of(star())), 1);
  Chance chance(*rc::gen::arbitrary<std::uint64_t>());
  int pushed = 0, off = 0;
  for (int i = 0; i < 500; ++i) {
    const double x = chance.between(-90'000, 90'000), z = chance.between(-90'000, 90'000);
    const std::optional<Side> side = keep_out.round(0, 0, 1).about_side(x, z);
    if (!side || side->depth <= 0)
      continue;
    ++pushed;
    RC_ASSERT(std::abs(std::hypot(side->x, side->z) - 1) <= 1e-4);
    constexpr double some_um = 10;
    off += keep_out.depth(x + side->depth * side->x, z + side->depth * side->z) > some_um ? 1 : 0;
    // Told by what its square knows, it is as right as the depth told so.
    const std::optional<Side> approx = keep_out.round(0, 0, 1).about_side(x, z, true);
    RC_ASSERT(approx.has_value());
    RC_ASSERT(std::abs(std::hypot(approx->x, approx->z) - 1) <= 1e-4);
    RC_ASSERT(std::abs(approx->depth - keep_out.depth(x, z)) <= keep_out.grain() + some_um);
  }
  RC_ASSERT(off <= 1 + pushed / 100);
}

RC_GTEST_PROP(sheets, a_region_laid_round_a_piece_answers_as_the_region_moved, ()) {
  const KeepOut keep_out(no_fit_region(shape_of(star()), shape_of(star())), 2000);
  const double at_x = *rc::gen::inRange(-90'000, 90'000), at_z = *rc::gen::inRange(-90'000, 90'000);
  const double sign = *rc::gen::element(1.0, -1.0);
  const auto round = keep_out.round(at_x, at_z, sign), own = keep_out.round(0, 0, 1);
  for (int i = 0; i < 50; ++i) {
    const double x = *rc::gen::inRange(-90'000, 90'000), z = *rc::gen::inRange(-90'000, 90'000);
    constexpr double rounding_um = 0.5; // of single precision
    RC_ASSERT(std::abs(round.about_depth(at_x + x, at_z + z) - own.about_depth(sign * x, sign * z)) <= rounding_um);
    const auto about = round.about_side(at_x + x, at_z + z), alike = own.about_side(sign * x, sign * z);
    if (about && alike && std::max(about->depth, alike->depth) > 0)
      RC_ASSERT(std::abs(about->depth - alike->depth) <= rounding_um);
    const auto exact = round.side(at_x + x, at_z + z), same = own.side(sign * x, sign * z);
    RC_ASSERT(exact.has_value() == same.has_value() ||
              std::max(exact.value_or(Side{}).depth, same.value_or(Side{}).depth) <= rounding_um);
    if (!exact || !same)
      continue;
    RC_ASSERT(std::abs(exact->depth - same->depth) <= rounding_um);
    if (same->depth > 1 && std::hypot(exact->x - sign * same->x, exact->z - sign * same->z) * same->depth > 1)
      // Where two edges are as near, rounding chooses; either way leads out.
      RC_ASSERT(keep_out.depth(sign * x + sign * exact->depth * exact->x, sign * z + sign * exact->depth * exact->z) <
                1);
  }
}

RC_GTEST_PROP(sheets, figures_turned_together_or_traded_keep_as_far_apart, ()) {
  // Two kinds in all stances: what one region tells of four pairs is what each pair's own region tells.
  const std::vector<Stance> stances{{0, false}, {90, false}, {180, false}, {270, false}, {0, true}, {180, true}};
  std::vector<SearchedKind> kinds;
  kinds.reserve(2);
  for (int i = 0; i < 2; ++i)
    kinds.push_back({{shape_of(star()), {}, 0}, stances});
  for (SearchedKind& kind : kinds)
    kind.profile.box = extent(kind.profile.shape.outline);
  const Figures figures(kinds, 1000);
  const auto shape = [&](std::size_t figure) {
    return laid(kinds[figures[figure].kind].profile.shape, figures[figure].stance);
  };
  for (int i = 0; i < 10; ++i) {
    const auto fixed = *rc::gen::inRange<std::size_t>(0, 12), moving = *rc::gen::inRange<std::size_t>(0, 12);
    const KeepOut own(no_fit_region(shape(fixed), shape(moving)), 1000 + search_slack_um);
    const double x = *rc::gen::inRange(-60'000, 60'000), z = *rc::gen::inRange(-60'000, 60'000);
    constexpr double rounding_um = 3; // corners of either region are rounded to whole micrometres
    RC_ASSERT(std::abs(figures.depth(fixed, moving, x, z) - own.depth(x, z)) <= rounding_um);
  }
}

RC_GTEST_PROP(sheets, depth_is_the_shortest_way_out, ()) {
  const Shape a = shape_of(star()), b = shape_of(star());
  const KeepOut keep_out(no_fit_region(a, b), 0);
  const Spot move{*rc::gen::inRange(-9'000, 9'000), *rc::gen::inRange(-9'000, 9'000)};
  const double depth = keep_out.depth(static_cast<double>(move.x), static_cast<double>(move.z));
  RC_ASSERT(depth > 1000); // the smallest stars reach 10 mm along every corner
  bool found_way_out = false;
  for (int i = 0; i < 3600; ++i) {
    const double angle = i * std::numbers::pi / 1800;
    const auto at = [&](double share) {
      return keep_out.depth(static_cast<double>(move.x) + share * depth * std::cos(angle),
                            static_cast<double>(move.z) + share * depth * std::sin(angle));
    };
    RC_ASSERT(at(0.999) > 0);
    found_way_out = found_way_out || at(1.001) == 0;
  }
  RC_ASSERT(found_way_out);
}
