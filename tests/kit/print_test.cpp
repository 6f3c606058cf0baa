#include "drawing/words.h"
#include "kit/cut_pages.h"
#include "kit/free_room.h"
#include "kit/page_measures.h"
#include "kit/print_files.h"
#include "kit/tiles.h"
#include "kit/window.h"
#include "leaf/region.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <set>

using namespace fanwright;
using namespace fanwright::kit;
using drawing::Point;

namespace {

design::Design pear(double height_mm, design::MarkStyle marks) {
  const auto parsed = design::parse(R"({ "fanwright": 1, "title": "Pear", "units": "mm",
    "silhouette": { "path": "M 0 7 C 12 7 18 0 34 0 C 66 0 86 34 86 74 C 86 126 46 138 42 188 C 40 208 36 222 24 228 L 0 257", "shows": "flat" },
    "leaves": 42, "rows": { "count": 9, "width": 2.5, "spine_gap": 2, "edge_gap": 2 }, "paper": { "grammage": 120 },
    "sheet": { "size": "A3" }, "sizes": [ { "name": "one" } ] })");
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
  auto design = std::holds_alternative<design::Design>(parsed) ? std::get<design::Design>(parsed) : design::Design{};
  design.sizes.front().height_mm = height_mm;
  design.making.marks = marks;
  return design;
}

Part part_of(const design::Design& design) {
  auto part = planned(design, design.sizes.front(), nullptr, nullptr);
  if (const auto* problem = std::get_if<Problem>(&part)) {
    ADD_FAILURE() << problem->sentence;
    return {};
  }
  return std::get<Part>(std::move(part));
}

/// Points of a note that tell whether it lies on a leaf: all of a path's, a text's four corners and middle.
std::vector<Point> points_of(const drawing::Item& item) {
  std::vector<Point> points;
  if (const auto* path = std::get_if<drawing::Path>(&item)) {
    for (const auto& chords : chords_of(*path))
      points.insert(points.end(), chords.begin(), chords.end());
  } else if (const auto* text = std::get_if<drawing::Text>(&item)) {
    const double width = drawing::words_width_mm(text->words, text->size_mm, text->bold);
    const double share = text->align == drawing::Align::left ? 0 : text->align == drawing::Align::centre ? 0.5 : 1;
    for (const double x : {0.0, 0.5, 1.0})
      for (const double up : {0.0, 0.7})
        points.push_back({text->baseline.x + (x - share) * width, text->baseline.y - up * text->size_mm});
  }
  return points;
}

bool is_note(const drawing::Item& item) {
  return std::visit(
      [](const auto& mark) { return mark.step == drawing::Step::legend || mark.step == drawing::Step::dimension; },
      item);
}

/// Notes beside the leaves, all on the page; names of leaves may lie in their rows.
void expect_notes_beside_leaves(const MeasuredPage& measured, const Part& part, const std::string& name) {
  const leaf::Region outline(part.outline);
  for (const drawing::Item& item : measured.page.items) {
    if (!is_note(item))
      continue;
    const auto* text = std::get_if<drawing::Text>(&item);
    if (text != nullptr && text->words == name)
      continue;
    for (const Point& p : points_of(item)) {
      EXPECT_TRUE(p.x >= 0 && p.y >= 0 && p.x <= measured.page.width_mm && p.y <= measured.page.height_mm)
          << (text != nullptr ? text->words : "a line") << " leaves the page at " << p.x << ", " << p.y;
      for (const Place& place : measured.leaves) {
        const Point from{p.x - place.origin.x, p.y - place.origin.y};
        const double turn = -place.turn_deg * std::acos(-1.0) / 180, x = place.mirrored ? -from.x : from.x;
        const leaf::Point on_leaf{std::cos(turn) * x + std::sin(turn) * from.y,
                                  std::sin(turn) * x - std::cos(turn) * from.y};
        EXPECT_FALSE(outline.contains(on_leaf))
            << (text != nullptr ? text->words : "a line") << " lies on a leaf at " << p.x << ", " << p.y;
      }
    }
  }
}

int leaves_on_fronts(const PrintFile& file) {
  return std::accumulate(file.pages.begin(), file.pages.end(), 0, [](int sum, const MeasuredPage& page) {
    return sum + (page.shows == "front" ? page.copies * static_cast<int>(page.leaves.size()) : 0);
  });
}

} // namespace

TEST(kit_print, notes_lie_beside_the_leaves_whatever_their_size) {
  for (const double height : {45.0, 52.0, 70.0, 91.0, 110.0, 139.0, 200.0, 262.0, 283.0}) {
    const design::Design design = pear(height, design::MarkStyle::printed);
    const Part part = part_of(design);
    for (const PrintPaper& paper : print_papers())
      for (const MeasuredPage& page : print_file(design, part, paper).pages)
        if (page.shows == "front" || page.shows == "back") {
          SCOPED_TRACE(std::string(paper.name) + " " + page.shows + " " + std::to_string(height));
          expect_notes_beside_leaves(page, part, "one leaf");
        }
    const CutPages cut = cut_pages(design, part);
    for (const MeasuredPage& page : cut.sheets)
      expect_notes_beside_leaves(page, part, "");
    expect_notes_beside_leaves(cut.leaf, part, "");
  }
}

TEST(kit_print, every_page_carries_its_measures) {
  for (const double height : {45.0, 70.0, 139.0, 262.0, 283.0, 400.0}) {
    const design::Design design = pear(height, design::MarkStyle::printed);
    const Part part = part_of(design);
    for (const PrintPaper& paper : print_papers())
      for (const PrintFile& file : {print_file(design, part, paper), master_leaf(design, part, paper)})
        for (const MeasuredPage& page : file.pages) {
          ASSERT_TRUE(page.millimetres && page.inches) << file.name << " " << page.shows << " " << height;
          EXPECT_EQ(page.millimetres->length_mm, 100);
          EXPECT_DOUBLE_EQ(page.inches->length_mm, 101.6); // 4 x 25.4 mm
          EXPECT_TRUE(page.square || (page.foot && page.left_side && page.left_side->length_mm >= 50));
        }
  }
}

TEST(kit_print, every_leaf_is_printed_once_and_every_front_has_its_mirrored_back) {
  const design::Design design = pear(110, design::MarkStyle::printed);
  const Part part = part_of(design);
  for (const PrintPaper& paper : print_papers()) {
    const PrintFile file = print_file(design, part, paper);
    EXPECT_EQ(leaves_on_fronts(file), 42);
    ASSERT_EQ(file.pages.size() % 2, 0u);
    for (std::size_t i = 2; i < file.pages.size(); i += 2) {
      const MeasuredPage &front = file.pages[i], &back = file.pages[i + 1];
      EXPECT_EQ(front.shows, "front");
      EXPECT_EQ(back.shows, "back");
      EXPECT_EQ(front.copies, back.copies);
      ASSERT_EQ(front.leaves.size(), back.leaves.size());
      for (std::size_t k = 0; k < front.leaves.size(); ++k)
        for (const leaf::Point& p : {leaf::Point{0, 0}, leaf::Point{20, 35}}) {
          EXPECT_NEAR(front.leaves[k](p).x + back.leaves[k](p).x, paper.size.width_mm, 1e-9);
          EXPECT_NEAR(front.leaves[k](p).y, back.leaves[k](p).y, 1e-9);
        }
      for (const drawing::Item& item : back.page.items)
        if (const auto* path = std::get_if<drawing::Path>(&item)) {
          EXPECT_NE(path->step, drawing::Step::cut);
          EXPECT_NE(path->step, drawing::Step::glue_inside) << "inside rows are on the inner face";
        }
    }
  }
}

TEST(kit_print, rows_printed_on_the_back_lie_within_those_of_the_leaf) {
  const design::Design design = pear(200, design::MarkStyle::printed);
  const Part part = part_of(design);
  const PrintFile file = print_file(design, part, print_papers().front());
  const MeasuredPage& back = file.pages.at(3);
  int strips = 0;
  for (const drawing::Item& item : back.page.items) {
    const auto* path = std::get_if<drawing::Path>(&item);
    if (path == nullptr || path->step != drawing::Step::glue_between)
      continue;
    ++strips;
    for (const Point& p : points_of(item)) {
      const bool within = std::any_of(part.marks.glue.begin(), part.marks.glue.end(), [&](const leaf::GlueMark& mark) {
        leaf::Ring ring(mark.corners.begin(), mark.corners.end());
        const PageBox box = box_of(ring, back.leaves.front());
        return mark.face == leaf::Face::outer && p.x > box.left + 0.49 && p.x < box.right - 0.49 &&
               p.y > box.top + 0.49 && p.y < box.bottom - 0.49;
      });
      EXPECT_TRUE(within) << p.x << ", " << p.y;
    }
  }
  EXPECT_EQ(strips, 2 * 2 * 4) << "four between rows on two halves, frame and hatching";
}

TEST(kit_print, without_printed_marks_there_are_no_backs_and_no_glue_places) {
  const design::Design design = pear(110, design::MarkStyle::none);
  const Part part = part_of(design);
  const PrintFile file = print_file(design, part, print_papers().front());
  EXPECT_EQ(leaves_on_fronts(file), 42);
  for (const MeasuredPage& page : file.pages) {
    EXPECT_NE(page.shows, "back");
    for (const drawing::Item& item : page.page.items)
      if (const auto* path = std::get_if<drawing::Path>(&item)) {
        EXPECT_NE(path->step, drawing::Step::glue_inside);
        EXPECT_NE(path->step, drawing::Step::glue_between);
      }
  }
}

TEST(kit_print, a_leaf_larger_than_the_page_is_printed_once_in_parts_that_show_all_of_it) {
  const design::Design design = pear(400, design::MarkStyle::printed);
  const Part part = part_of(design);
  const PrintFile file = print_file(design, part, print_papers().front());
  EXPECT_EQ(leaves_on_fronts(file), 0);
  leaf::Ring unseen = part.outline;
  for (const MeasuredPage& page : file.pages) {
    if (page.shows != "part")
      continue;
    EXPECT_EQ(page.copies, 1);
    EXPECT_FALSE(page.name.empty());
    ASSERT_TRUE(page.part);
    EXPECT_GE(page.part->left, 6.35 - 1e-9); // a quarter of an inch is not printed on
    EXPECT_LE(page.part->bottom, 297 - 6.35 + 1e-9);
    std::erase_if(unseen, [&](const leaf::Point& p) {
      const Point at = page.leaves.front()(p);
      return at.x > page.part->left && at.x < page.part->right && at.y > page.part->top && at.y < page.part->bottom;
    });
  }
  EXPECT_TRUE(unseen.empty());
}

TEST(kit_print, parts_overlap_and_carry_the_same_joining_marks) {
  const Tiling tiling = tiling_of({-210, -400, 210, 0}, 197, 250);
  EXPECT_EQ(tiling.columns, 3); // 420 mm in windows of 197 mm that share 10 mm: 197 + 187 + 187
  EXPECT_EQ(tiling.rows, 2);
  EXPECT_EQ(tiling.name(2, 1), "C2");
  const auto marks = joints(tiling);
  const auto numbers = [&](int column, int row) {
    std::set<std::string> found;
    for (const drawing::Item& item : seen_through(marks, tiling.window(column, row), {0, 0}))
      if (const auto* text = std::get_if<drawing::Text>(&item))
        found.insert(text->words);
    return found;
  };
  std::set<std::string> shared;
  const auto left = numbers(0, 0), right = numbers(1, 0), below = numbers(0, 1);
  std::set_intersection(left.begin(), left.end(), right.begin(), right.end(), std::inserter(shared, shared.end()));
  EXPECT_EQ(shared.size(), 2u);
  shared.clear();
  std::set_intersection(left.begin(), left.end(), below.begin(), below.end(), std::inserter(shared, shared.end()));
  EXPECT_EQ(shared.size(), 2u);
}

TEST(kit_print, what_a_window_cuts_off_ends_on_its_edge) {
  const drawing::Path circle{drawing::Step::cut,
                             {drawing::Move{{10, 0}}, drawing::Arc{10, 10, 0, false, true, {-10, 0}},
                              drawing::Arc{10, 10, 0, false, true, {10, 0}}, drawing::Close{}},
                             {}};
  const auto seen = seen_through({circle}, {0, -20, 20, 20}, {100, 100});
  ASSERT_EQ(seen.size(), 1u);
  double length = 0;
  for (const auto& chords : chords_of(std::get<drawing::Path>(seen[0])))
    for (std::size_t i = 0; i + 1 < chords.size(); ++i) {
      length += std::hypot(chords[i + 1].x - chords[i].x, chords[i + 1].y - chords[i].y);
      EXPECT_GE(chords[i].x, 100 - 1e-9);
      EXPECT_NEAR(std::hypot(chords[i].x - 100, chords[i].y - 120), 10, 0.006); // chords within 0.005 mm
    }
  EXPECT_NEAR(length, 10 * std::acos(-1.0), 0.02);
  EXPECT_TRUE(seen_through({circle}, {11, -20, 20, 20}, {0, 0}).empty());
}

RC_GTEST_PROP(kit_print, found_room_is_free, (int seed)) {
  const int a = std::abs(seed % 97), b = std::abs(seed % 61);
  FreeRoom room(100, 80, 5);
  const PageBox taken{10.0 + a / 3.0, 8.0 + b / 2.0, 40.0 + a / 3.0, 20.0 + b / 2.0};
  room.take(taken);
  const double width = 10 + b / 4.0, height = 6 + a / 8.0;
  const auto corner = room.find(width, height, {a + 0.0, b + 0.0});
  if (!corner)
    return;
  RC_ASSERT(corner->x >= 5 && corner->y >= 5 && corner->x + width <= 95 && corner->y + height <= 75);
  RC_ASSERT(corner->x >= taken.right || corner->x + width <= taken.left || corner->y >= taken.bottom ||
            corner->y + height <= taken.top);
}
