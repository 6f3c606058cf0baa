#include "drawing/words.h"
#include "kit/cut_pages.h"
#include "kit/leaf_lines.h"
#include "kit/starting_point.h"
#include "leaf/contour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

using namespace fanwright;
using fanwright::kit::LeafCuts;

namespace {

/// A body with two holes a half, the smaller one listed last.
design::Design design_with(const design::Making& making) {
  const auto parsed = design::parse(R"({ "fanwright": 1, "title": "Acorn", "units": "mm",
    "silhouette": { "path": "M 0 0 H 12 A 22 22 0 0 1 12 44 L 0 60 Z M 20 14 h -8 v -5 h 8 Z M 22 28 a 2 2 0 0 0 -4 0 a 2 2 0 0 0 4 0 Z",
                    "shows": "flat" },
    "leaves": 30, "rows": [ { "side": "inside", "from": [3, 4], "to": [9, 4], "width": 2.5 },
                            { "side": "between", "from": [3, 20], "to": [14, 20], "width": 2.5 },
                            { "side": "inside", "from": [3, 36], "to": [14, 36], "width": 2.5 } ],
    "paper": { "grammage": 120 } })");
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
  auto design = std::holds_alternative<design::Design>(parsed) ? std::get<design::Design>(parsed) : design::Design{};
  design.making = making;
  return design;
}

struct Made {
  leaf::Leaf leaf;
  leaf::Marks marks;
  LeafCuts cuts;
};

Made made(const design::Making& making) {
  const design::Design design = design_with(making);
  const auto built = leaf::build(design, design.sizes.front());
  if (const auto* refusal = std::get_if<design::Refusal>(&built)) {
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
    return {};
  }
  Made result{std::get<leaf::Leaf>(built), {}, {}};
  result.marks = leaf::marks(result.leaf);
  result.cuts = fanwright::kit::leaf_cuts(result.leaf, result.marks, making);
  return result;
}

design::Making making_of(design::ScoreStyle score, design::MarkStyle marks) {
  design::Making result;
  result.score = score;
  result.marks = marks;
  return result;
}

const auto line = design::ScoreStyle::line;
const auto dashes = design::ScoreStyle::dashes;
const auto printed = design::MarkStyle::printed;
const auto nicks = design::MarkStyle::nicks;

double least_distance_from_spine(const leaf::Contour& contour) {
  double least = 1e9;
  for (const leaf::Point& p : leaf::flatten(contour, 0.001))
    least = std::min(least, std::abs(p.x));
  return least;
}

drawing::Point end_of(const drawing::Segment& segment) {
  if (const auto* move = std::get_if<drawing::Move>(&segment))
    return move->to;
  return std::get<drawing::Line>(segment).to;
}

} // namespace

TEST(kit_cutting, sets_the_knife_in_next_to_the_spine) {
  const Made leaf = made(making_of(line, printed));
  ASSERT_EQ(leaf.cuts.cut_outs.size(), 4u);
  for (const leaf::Contour& hole : leaf.cuts.cut_outs) {
    EXPECT_NEAR(std::abs(hole.start.x), least_distance_from_spine(hole), 0.002);
    const leaf::Point end = leaf::end_of(hole.segments.back());
    EXPECT_NEAR(std::hypot(end.x - hole.start.x, end.z - hole.start.z), 0, 1e-9) << "closed again";
  }
  EXPECT_EQ(leaf.cuts.outline.start.x, 0) << "the outline is begun in the hub";
  EXPECT_EQ(leaf.cuts.outline.start.z, leaf.leaf.spine_foot_z);
}

TEST(kit_cutting, a_hole_begun_elsewhere_is_the_same_hole) {
  const Made leaf = made(making_of(line, printed));
  for (const leaf::Contour& hole : leaf.marks.cut_outs) {
    const leaf::Contour begun = fanwright::kit::begun_nearest_spine(hole);
    EXPECT_NEAR(leaf::signed_area(begun), leaf::signed_area(hole), 1e-9);
    EXPECT_NEAR(leaf::bounds(begun).left, leaf::bounds(hole).left, 1e-9);
    EXPECT_NEAR(leaf::bounds(begun).top, leaf::bounds(hole).top, 1e-9);
  }
}

TEST(kit_cutting, splits_every_kind_of_curve_where_it_comes_nearest) {
  // Each bulges towards the spine between its ends; the point nearest it is known by symmetry.
  const leaf::Point bottom{10, 0}, top{10, 8};
  for (const leaf::Segment& bulge :
       {leaf::Segment{leaf::Cubic{{6, 0}, {6, 8}, bottom}}, leaf::Segment{leaf::Quadratic{{4, 4}, bottom}},
        leaf::Segment{leaf::Arc{5, 5, 0, false, true, bottom}},
        leaf::Segment{leaf::Arc{5, 5, 0, true, true, bottom}}}) {
    const leaf::Contour contour{bottom, {leaf::Line{{14, 4}}, leaf::Line{top}, bulge}};
    const leaf::Contour begun = fanwright::kit::begun_nearest_spine(contour);
    EXPECT_NEAR(begun.start.z, 4, 1e-4);
    EXPECT_NEAR(begun.start.x, leaf::bounds(contour).left, 1e-6);
    EXPECT_NEAR(leaf::signed_area(begun), leaf::signed_area(contour), 1e-9);
  }
}

TEST(kit_cutting, small_holes_come_before_large_and_all_before_the_outline) {
  const Made leaf = made(making_of(line, printed));
  drawing::Page page;
  fanwright::kit::add_cuts(page, leaf.cuts, {{0, false, {50, 80}}, {180, false, {120, 10}}});
  std::vector<double> heights; // of the cuts, in their order: 4 the small hole, 5 the large, 60 the outline
  for (const drawing::Item& item : page.items) {
    const auto& path = std::get<drawing::Path>(item);
    if (path.step != drawing::Step::cut)
      continue;
    double least = 1e9, most = -1e9;
    for (const drawing::Segment& segment : path.segments)
      if (const auto* arc = std::get_if<drawing::Arc>(&segment)) {
        least = std::min(least, arc->to.y - arc->radius_y), most = std::max(most, arc->to.y + arc->radius_y);
      } else if (!std::holds_alternative<drawing::Close>(segment)) {
        least = std::min(least, end_of(segment).y), most = std::max(most, end_of(segment).y);
      }
    heights.push_back(most - least);
  }
  ASSERT_EQ(heights.size(), 10u);
  EXPECT_TRUE(std::is_sorted(heights.begin(), heights.end(), [](double a, double b) { return a < b - 1; }));
  EXPECT_GT(heights[8], 50);
}

TEST(kit_cutting, one_nick_tells_inside_two_tell_between) {
  const Made leaf = made(making_of(line, nicks));
  ASSERT_EQ(leaf.cuts.nicks.size(), 4u);
  const std::vector<double> heights = {4, 19.25, 20.75, 36};
  for (std::size_t i = 0; i < heights.size(); ++i) {
    EXPECT_NEAR(leaf.cuts.nicks[i].from.z, heights[i], 1e-9);
    EXPECT_NEAR(leaf.cuts.nicks[i].to.x - leaf.cuts.nicks[i].from.x, fanwright::kit::nick_mm, 1e-9);
  }
  EXPECT_TRUE(leaf.cuts.rows_not_nicked.empty());
}

TEST(kit_cutting, a_row_too_near_a_cut_gets_no_nick_and_is_told) {
  Made leaf = made(making_of(line, nicks));
  leaf.leaf.rows[0].from.z = 0.9;  // nearer to the foot than the bridge
  leaf.leaf.rows[2].from.z = 21.7; // and nearer to another nick
  const LeafCuts cuts = fanwright::kit::leaf_cuts(leaf.leaf, leaf.marks, making_of(line, nicks));
  EXPECT_EQ(cuts.nicks.size(), 2u);
  EXPECT_EQ(cuts.rows_not_nicked, (std::vector<std::size_t>{0, 2}));
}

TEST(kit_cutting, dashes_keep_the_bridge_from_nicks_and_ends) {
  design::Making wish = making_of(dashes, nicks);
  wish.score_dash_mm = 2;
  wish.score_gap_mm = 0.5;
  const Made leaf = made(wish);
  EXPECT_TRUE(leaf.cuts.score.empty());
  drawing::Page page;
  fanwright::kit::add_cuts(page, leaf.cuts, {{0, false, {0, 0}}});
  std::vector<double> stops = {leaf.leaf.spine_foot_z, leaf.leaf.spine_top_z};
  for (const auto& nick : leaf.cuts.nicks)
    stops.push_back(nick.from.z);
  int count = 0;
  for (const drawing::Item& item : page.items) {
    const auto& path = std::get<drawing::Path>(item);
    if (path.step != drawing::Step::perforate)
      continue;
    ++count;
    for (const drawing::Segment& segment : path.segments) {
      EXPECT_NEAR(end_of(segment).x, 0, 1e-9);
      for (const double stop : stops)
        EXPECT_GE(std::abs(-end_of(segment).y - stop), fanwright::kit::least_bridge_mm - 1e-9) << stop;
    }
  }
  EXPECT_GT(count, 15); // 60 mm less bridges, a dash each 2.5 mm
}

TEST(kit_cutting, a_leaf_from_behind_is_its_mirror_image) {
  const fanwright::kit::Place front{90, false, {70, 30}};
  const fanwright::kit::Place back = fanwright::kit::from_behind(front, 210);
  for (const leaf::Point& p : {leaf::Point{0, 0}, leaf::Point{12, 3}, leaf::Point{-5, 40}}) {
    EXPECT_NEAR(back(p).x, 210 - front(p).x, 1e-12);
    EXPECT_NEAR(back(p).y, front(p).y, 1e-12);
  }
  // An arc turned and mirrored still passes through the mirrored point of its middle.
  const leaf::Contour contour{{0, 0}, {leaf::Arc{9, 4, 30, false, true, {6, 5}}, leaf::Line{{0, 0}}}};
  for (const auto& [a, b] : {std::pair{front, back}}) {
    const auto middle = [&](const fanwright::kit::Place& place) {
      const auto path = fanwright::kit::path_of(drawing::Step::cut, contour, place);
      return drawing::cubics_of(place(contour.start), std::get<drawing::Arc>(path.segments[1])).front().to;
    };
    EXPECT_NEAR(middle(b).x, 210 - middle(a).x, 1e-9);
    EXPECT_NEAR(middle(b).y, middle(a).y, 1e-9);
  }
}

TEST(kit_cutting, names_stand_in_an_inside_strip_or_not_at_all) {
  const Made leaf = made(making_of(line, printed));
  drawing::Page page;
  EXPECT_TRUE(fanwright::kit::add_inside_rows_with_name(page, leaf.marks, {0, false, {0, 0}}, "s"));
  const auto text = std::find_if(page.items.begin(), page.items.end(),
                                 [](const auto& item) { return std::holds_alternative<drawing::Text>(item); });
  ASSERT_NE(text, page.items.end());
  const auto& words = std::get<drawing::Text>(*text);
  const double half = drawing::words_width_mm(words.words, words.size_mm) / 2;
  EXPECT_GT(words.baseline.x - half, 3);
  EXPECT_LT(words.baseline.x + half, 14); // the strip at height 36: from 3 to 14
  EXPECT_GT(-words.baseline.y, 34.75);
  EXPECT_LT(-words.baseline.y + 0.75 * words.size_mm, 37.25);
  drawing::Page none;
  EXPECT_FALSE(fanwright::kit::add_inside_rows_with_name(none, leaf.marks, {0, false, {0, 0}}, "a name far too long"));
  EXPECT_FALSE(fanwright::kit::add_inside_rows_with_name(none, leaf.marks, {90, false, {0, 0}}, "s"));
  EXPECT_TRUE(std::none_of(none.items.begin(), none.items.end(),
                           [](const auto& item) { return std::holds_alternative<drawing::Text>(item); }));
}
