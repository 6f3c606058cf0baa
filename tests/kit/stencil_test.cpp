#include "kit/stencil.h"
#include "kit/stencil_files.h"
#include "kit/stencil_page.h"
#include "kit/window.h"
#include "leaf/contour.h"
#include "leaf/marks.h"
#include "leaf/region.h"
#include "leaf/strip.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <regex>
#include <sstream>

using namespace fanwright;
using design::Side;
using kit::GlueGiven;
using kit::Stencil;
using kit::StencilWindow;
using leaf::Point;

namespace {

constexpr double chord_mm = 0.001; // of flattened arcs: chords lie inside, so distances may be off by as much

/// A half 60 mm wide and 120 mm high with square corners.
leaf::Contour board(double width, double height) {
  return {{0, 0}, {leaf::Line{{width, 0}}, leaf::Line{{width, height}}, leaf::Line{{0, height}}, leaf::Line{{0, 0}}}};
}

leaf::Leaf board_leaf(std::vector<leaf::GlueRow> rows, double width = 60, double height = 120) {
  return {board(width, height), {}, std::move(rows), 0, height};
}

design::Making making_of(double bead_mm, design::Cutting cutting = design::Cutting::by_hand) {
  design::Making result;
  result.bead_mm = bead_mm;
  result.cutting = cutting;
  return result;
}

Stencil made(const leaf::Leaf& leaf, Side side, const design::Making& wish) {
  auto result = kit::stencil(leaf, side, wish);
  if (const auto* sentence = std::get_if<std::string>(&result))
    ADD_FAILURE() << *sentence;
  return std::holds_alternative<Stencil>(result) ? std::get<Stencil>(result) : Stencil{};
}

leaf::Ring ring_of(const leaf::Contour& contour) { return leaf::flatten(contour, chord_mm); }

leaf::Ring strip_of(const leaf::GlueRow& row) {
  const auto corners = leaf::corners(row);
  return {corners.begin(), corners.end()};
}

/// Faults of a stencil by polygon distances; empty when there are none.
std::string fault(const leaf::Leaf& leaf, const Stencil& card, const design::Making& wish) {
  const double bridge = kit::least_card_mm(wish.cutting) - 2 * chord_mm, spread = card.spread_mm - 2 * chord_mm;
  const leaf::Ring edge = ring_of(card.card);
  if (leaf::self_contact(edge))
    return "the card's outline crosses itself";
  const leaf::Region paper(ring_of(leaf.outline)), whole_card(edge);
  for (const StencilWindow& window : card.windows) {
    const leaf::Ring hole = ring_of(kit::cut_line(window));
    const std::string where = " at row " + std::to_string(window.row);
    if (leaf.rows.at(window.row).side != card.side)
      return "window over a row of the other side" + where;
    const leaf::Region strip(strip_of(leaf.rows[window.row]));
    if (!strip.contains(window.from) || strip.distance_to_boundary(hole) < spread)
      return "glue is pressed out of the row" + where;
    if (!paper.contains(window.from) || paper.distance_to_boundary(hole) <= 0)
      return "window outside the leaf" + where;
    if (!whole_card.contains(window.from) || whole_card.distance_to_boundary(hole) < bridge)
      return "too little card at the edge" + where;
    for (const StencilWindow& other : card.windows)
      if (&other != &window && leaf::Region(ring_of(kit::cut_line(other))).distance_to_boundary(hole) < bridge)
        return "too little card between windows" + where;
    if (window.radius_mm * 2 < std::max(1.0, wish.bead_mm))
      return "window narrower than a knife or the glue allows" + where;
  }
  return {};
}

bool has_window(const Stencil& card, std::size_t row) {
  return std::any_of(card.windows.begin(), card.windows.end(), [row](const auto& w) { return w.row == row; });
}

leaf::GlueRow level_row(Side side, double z, double from, double to, double width = 3) {
  return {side, {from, z}, {to, z}, width};
}

double cut_length(const StencilWindow& w) { return std::hypot(w.to.x - w.from.x, w.to.z - w.from.z) + 2 * w.radius_mm; }

} // namespace

// Volumes before and after pressing are equal: pi d^2 / 4 = w h for a bead, pi d^3 / 12 = pi D^2 h / 4 for half a ball.
TEST(kit_stencil, stencil_spreads_glue_by_its_volume) {
  // 0.5 mm pressed to 0.1 mm: 1.963 mm wide (computed by hand).
  EXPECT_NEAR(kit::spread_beyond_mm(GlueGiven::bead, 0.5), (1.9635 - 0.5) / 2, 1e-4);
  // 2 mm at 0.1 mm: a disc of 5.164 mm (computed by hand).
  EXPECT_NEAR(kit::spread_beyond_mm(GlueGiven::dabs, 2), (5.1640 - 2) / 2, 1e-4);
}

TEST(kit_stencil, stencil_asks_for_dabs_where_a_bead_would_be_pressed_out_of_the_row) {
  const auto leaf = board_leaf({level_row(Side::inside, 30, 3, 50), level_row(Side::between, 60, 3, 50)});
  EXPECT_EQ(made(leaf, Side::inside, making_of(1.0)).glue, GlueGiven::dabs); // 7.9 mm of glue in a row of 3 mm
  EXPECT_EQ(made(leaf, Side::inside, making_of(0.5)).glue, GlueGiven::bead); // 2 mm
  EXPECT_TRUE(made(leaf, Side::inside, making_of(0.5)).windows.front().dabs.empty());
}

TEST(kit_stencil, stencil_lies_flush_with_fold_foot_and_head) {
  leaf::Leaf leaf = board_leaf({level_row(Side::inside, 30, 3, 50)});
  leaf.outline = {
      {0, 7},
      {leaf::Cubic{{20, 7}, {30, -4}, {50, 0}}, leaf::Line{{60, 120}}, leaf::Line{{0, 110}}, leaf::Line{{0, 7}}}};
  const leaf::Box half = leaf::bounds(leaf.outline);
  const Stencil card = made(leaf, Side::inside, making_of(1));
  const leaf::Box box = leaf::bounds(card.card);
  EXPECT_LT(half.bottom, 0); // the curve dips below its ends
  EXPECT_DOUBLE_EQ(box.left, 0);
  EXPECT_DOUBLE_EQ(box.bottom, half.bottom);
  EXPECT_DOUBLE_EQ(box.top, half.top);
  EXPECT_GT(box.right, half.right + 5); // to be held
  EXPECT_GT(leaf::signed_area(card.card), 0);
}

TEST(kit_stencil, stencil_tells_its_side_and_its_head_by_notches) {
  const auto leaf = board_leaf({level_row(Side::inside, 30, 3, 50), level_row(Side::between, 60, 3, 50)});
  for (const Side side : {Side::inside, Side::between}) {
    const Stencil card = made(leaf, side, making_of(1));
    ASSERT_EQ(card.notches.size(), side == Side::inside ? 1U : 2U);
    const leaf::Region region(ring_of(card.card));
    for (const Point& notch : card.notches) {
      EXPECT_GT(notch.z, 60); // nearer the head
      EXPECT_FALSE(region.contains({notch.x - 0.9 * card.notch_radius_mm, notch.z}));
      EXPECT_TRUE(region.contains({notch.x - 1.1 * card.notch_radius_mm, notch.z}));
      EXPECT_TRUE(region.contains({notch.x - 0.1, 120 - notch.z})) << "turned head over foot it must not look the same";
    }
  }
}

TEST(kit_stencil, stencil_divides_long_windows_by_bridges) {
  const auto leaf = board_leaf({level_row(Side::inside, 40, 3, 144)}, 150);
  const Stencil card = made(leaf, Side::inside, making_of(1));
  ASSERT_EQ(card.windows.size(), 4U); // 140 mm in pieces of at most 40 mm
  for (const StencilWindow& window : card.windows) {
    EXPECT_LE(cut_length(window), 40);
    EXPECT_NEAR(cut_length(window), cut_length(card.windows.front()), 1e-9);
  }
  EXPECT_EQ(fault(leaf, card, making_of(1)), "");
}

TEST(kit_stencil, stencil_has_shorter_windows_where_little_card_is_left_beside_them) {
  const auto near = board_leaf({level_row(Side::inside, 40, 3, 50), level_row(Side::inside, 44, 3, 50)});
  const auto far = board_leaf({level_row(Side::inside, 40, 3, 50), level_row(Side::inside, 80, 3, 50)});
  EXPECT_GT(made(near, Side::inside, making_of(1)).windows.size(),
            made(far, Side::inside, making_of(1)).windows.size());
}

TEST(kit_stencil, stencil_narrows_windows_that_stand_too_near) {
  const auto leaf = board_leaf({level_row(Side::inside, 40, 3, 50), level_row(Side::inside, 43.6, 3, 50)});
  const Stencil card = made(leaf, Side::inside, making_of(1));
  EXPECT_EQ(fault(leaf, card, making_of(1)), "");
  EXPECT_TRUE(card.rows_by_eye.empty());
}

TEST(kit_stencil, stencil_gives_up_the_shorter_row_where_two_have_no_room) {
  const auto leaf = board_leaf({level_row(Side::inside, 40, 3, 30, 2), level_row(Side::inside, 42.6, 3, 50, 2)});
  const Stencil card = made(leaf, Side::inside, making_of(1));
  EXPECT_EQ(card.rows_by_eye, (std::vector<std::size_t>{0}));
  EXPECT_EQ(fault(leaf, card, making_of(1)), "");
}

TEST(kit_stencil, stencil_keeps_card_along_fold_and_foot_where_rows_come_near) {
  const auto leaf = board_leaf({level_row(Side::inside, 3.4, 0.3, 50, 4), level_row(Side::inside, 60, 0.3, 50, 4)});
  const Stencil card = made(leaf, Side::inside, making_of(1));
  EXPECT_EQ(fault(leaf, card, making_of(1)), "");
  EXPECT_TRUE(has_window(card, 0));
  EXPECT_LT(card.windows.front().radius_mm, card.windows.back().radius_mm);
}

TEST(kit_stencil, stencil_follows_a_sloping_row) {
  const auto leaf = board_leaf({{Side::between, {4, 20}, {50, 66}, 4}});
  const Stencil card = made(leaf, Side::between, making_of(1));
  EXPECT_EQ(fault(leaf, card, making_of(1)), "");
  const StencilWindow& window = card.windows.front();
  EXPECT_NEAR((window.to.z - window.from.z) / (window.to.x - window.from.x), 1, 1e-9);
}

TEST(kit_stencil, stencil_turned_over_serves_the_left_half) {
  const auto leaf = board_leaf({{Side::between, {4, 20}, {50, 44}, 4}, level_row(Side::inside, 60, 3, 50)});
  const leaf::Marks marks = leaf::marks(leaf);
  for (const Side side : {Side::inside, Side::between}) {
    const Stencil card = made(leaf, side, making_of(1));
    for (const StencilWindow& window : card.windows) {
      const leaf::Contour turned = leaf::mirrored(kit::cut_line(window));
      const auto mark = std::find_if(marks.glue.begin(), marks.glue.end(), [&](const leaf::GlueMark& m) {
        return m.row == window.row && m.half == leaf::Half::left;
      });
      ASSERT_NE(mark, marks.glue.end());
      const leaf::Region strip({mark->corners.begin(), mark->corners.end()});
      EXPECT_TRUE(strip.contains({-window.from.x, window.from.z}));
      EXPECT_GE(strip.distance_to_boundary(ring_of(turned)), card.spread_mm - 2 * chord_mm);
    }
  }
}

TEST(kit_stencil, stencil_leaves_a_row_too_short_for_a_window_to_the_eye) {
  const auto leaf = board_leaf({level_row(Side::inside, 30, 3, 4.5), level_row(Side::inside, 60, 3, 50)});
  const Stencil card = made(leaf, Side::inside, making_of(1));
  EXPECT_EQ(card.rows_by_eye, (std::vector<std::size_t>{0}));
  EXPECT_FALSE(has_window(card, 0));
}

TEST(kit_stencil, refuses_a_stencil_for_a_bead_that_no_row_can_take_and_names_one_that_it_can) {
  const auto leaf = board_leaf({level_row(Side::inside, 30, 3, 50)});
  const auto refused = kit::stencil(leaf, Side::inside, making_of(2));
  ASSERT_TRUE(std::holds_alternative<std::string>(refused));
  const std::string sentence = std::get<std::string>(refused);
  std::smatch found;
  ASSERT_TRUE(std::regex_search(sentence, found, std::regex("a bead of ([0-9.]+) mm"))) << sentence;
  EXPECT_TRUE(std::holds_alternative<Stencil>(kit::stencil(leaf, Side::inside, making_of(std::stod(found[1])))));
  EXPECT_TRUE(
      std::holds_alternative<std::string>(kit::stencil(leaf, Side::inside, making_of(std::stod(found[1]) + 0.1))));
}

TEST(kit_stencil, refuses_a_stencil_for_a_side_without_rows) {
  const auto refused = kit::stencil(board_leaf({level_row(Side::inside, 30, 3, 50)}), Side::between, making_of(1));
  ASSERT_TRUE(std::holds_alternative<std::string>(refused));
  EXPECT_NE(std::get<std::string>(refused).find("between"), std::string::npos);
}

TEST(kit_stencil, dabs_lie_in_their_window_and_keep_their_distance) {
  const auto leaf = board_leaf({level_row(Side::inside, 30, 3, 50), level_row(Side::inside, 60, 3, 6)});
  for (const StencilWindow& window : made(leaf, Side::inside, making_of(1)).windows) {
    ASSERT_FALSE(window.dabs.empty());
    EXPECT_GE(window.dabs.front().x, window.from.x - 1e-9);
    EXPECT_LE(window.dabs.back().x, window.to.x + 1e-9);
    for (std::size_t i = 1; i < window.dabs.size(); ++i)
      EXPECT_GE(window.dabs[i].x - window.dabs[i - 1].x, kit::dab_pitch_mm(1) - 1e-9);
  }
}

namespace {

/// A body with a waist and evenly spaced rows; empty when the leaf itself is refused.
std::optional<leaf::Leaf> drawn_leaf() {
  const auto whole = [](int low, int high) { return *rc::gen::inRange(low, high + 1); };
  const int height = whole(60, 300), foot = whole(15, 120), waist = whole(8, foot), head = whole(8, 90);
  design::Design design;
  std::ostringstream path;
  path << "M 0 " << whole(0, 12) << " L " << foot / 2 << " 0 C " << foot << " 0 " << foot << ' ' << height / 3 << ' '
       << waist << ' ' << height / 2 << " S " << head << ' ' << height << " 0 " << height;
  design.silhouette_path = path.str();
  design::Size size;
  size.rows = design::EvenRows{whole(2, 20), whole(0, 1) == 0 ? Side::inside : Side::between, whole(10, 60) / 10.0,
                               whole(0, 50) / 10.0, whole(0, 50) / 10.0};
  auto built = leaf::build(design, size);
  if (std::holds_alternative<design::Refusal>(built))
    return std::nullopt;
  return std::get<leaf::Leaf>(std::move(built));
}

} // namespace

RC_GTEST_PROP(kit_stencil, every_stencil_keeps_glue_in_its_rows_and_card_round_its_windows, ()) {
  const auto leaf = drawn_leaf();
  RC_PRE(leaf.has_value());
  const auto wish = making_of(*rc::gen::inRange(2, 16) / 10.0,
                              *rc::gen::element(design::Cutting::by_hand, design::Cutting::by_machine));
  for (const Side side : {Side::inside, Side::between}) {
    const auto result = kit::stencil(*leaf, side, wish);
    if (std::holds_alternative<std::string>(result))
      continue;
    const Stencil& card = std::get<Stencil>(result);
    const std::string found = fault(*leaf, card, wish);
    RC_ASSERT(found.empty());
    for (std::size_t i = 0; i < leaf->rows.size(); ++i) {
      if (leaf->rows[i].side != side)
        continue;
      const bool by_eye = std::count(card.rows_by_eye.begin(), card.rows_by_eye.end(), i) == 1;
      RC_ASSERT(has_window(card, i) != by_eye);
      // Rows well inside the leaf, wide enough and 8 mm long always have one.
      const leaf::GlueRow& row = leaf->rows[i];
      const bool clear = row.from.z - card.foot_z > 6 && card.head_z - row.from.z > 6;
      const bool wide = row.width_mm - 2 * std::max(0.0, card.spread_mm) >= std::max(1.0, wish.bead_mm);
      if (clear && wide && row.to.x - row.from.x >= 8)
        RC_ASSERT(!by_eye);
    }
  }
}

namespace {

struct Acorn {
  design::Design design;
  kit::Part part;

  Acorn() {
    const auto parsed = design::parse(R"({ "fanwright": 1, "title": "Acorn", "units": "mm",
      "silhouette": { "path": "M 0 0 H 12 A 22 22 0 0 1 12 44 L 0 60 Z", "shows": "flat" },
      "leaves": 30, "rows": { "count": 5, "first": "inside", "width": 3, "spine_gap": 3, "edge_gap": 3 },
      "paper": { "grammage": 120 } })");
    design = std::get<design::Design>(parsed);
    auto planned = kit::planned(design, design.sizes.front(), nullptr, nullptr);
    part = std::get<kit::Part>(std::move(planned));
    part.folder = "acorn";
  }
};

/// Numbers of one SVG attribute text.
std::vector<double> numbers_in(const std::string& text) {
  std::vector<double> numbers;
  const std::regex number("-?[0-9]+(\\.[0-9]+)?");
  for (auto it = std::sregex_iterator(text.begin(), text.end(), number); it != std::sregex_iterator(); ++it)
    numbers.push_back(std::stod(it->str()));
  return numbers;
}

} // namespace

TEST(kit_stencil, stencil_svg_has_its_windows_where_the_rows_are) {
  const Acorn acorn;
  const Stencil card = made(acorn.part.leaf, Side::inside, acorn.design.making);
  const auto page = kit::stencil_page(acorn.design, acorn.part, card);
  const auto files = std::get<kit::StencilFiles>(kit::stencil_files(acorn.design, acorn.part)).files;
  const auto file =
      std::find_if(files.begin(), files.end(), [](const auto& f) { return f.name == "acorn/stencil-inside.svg"; });
  ASSERT_NE(file, files.end());
  const std::string cut =
      file->bytes.substr(file->bytes.find("id=\"cut\""),
                         file->bytes.find("</g>", file->bytes.find("id=\"cut\"")) - file->bytes.find("id=\"cut\""));
  // Each window is one path "M a A|L ..."; its move and its furthest points give the centre.
  std::vector<Point> centres;
  const std::regex path(" d=\"M ?([^\"]*)\"");
  for (auto it = std::sregex_iterator(cut.begin(), cut.end(), path); it != std::sregex_iterator(); ++it) {
    std::vector<Point> ends;
    const std::string data = "L " + (*it)[1].str();
    const std::regex step("([LHVA]) ?([^LHVAZ]*)");
    for (auto s = std::sregex_iterator(data.begin(), data.end(), step); s != std::sregex_iterator(); ++s) {
      const auto numbers = numbers_in((*s)[2].str());
      ASSERT_GE(numbers.size(), 2U) << data;
      ends.push_back({numbers[numbers.size() - 2], numbers.back()});
    }
    const auto [left, right] = std::minmax_element(ends.begin(), ends.end(), [](auto a, auto b) { return a.x < b.x; });
    const auto [top, bottom] = std::minmax_element(ends.begin(), ends.end(), [](auto a, auto b) { return a.z < b.z; });
    centres.push_back({(left->x + right->x) / 2 - page.cards.front().x,
                       card.head_z - ((top->z + bottom->z) / 2 - page.cards.front().y)});
  }
  ASSERT_EQ(centres.size(), card.windows.size() + 1); // and the card
  for (const StencilWindow& window : card.windows)
    EXPECT_TRUE(std::any_of(centres.begin(), centres.end(),
                            [&](const Point& c) {
                              return std::abs(c.x - (window.from.x + window.to.x) / 2) < 0.1 &&
                                     std::abs(c.z - (window.from.z + window.to.z) / 2) < 0.1;
                            }))
        << "row " << window.row;
}

TEST(kit_stencil, stencil_files_are_the_same_on_every_run) {
  const Acorn acorn;
  const auto first = std::get<kit::StencilFiles>(kit::stencil_files(acorn.design, acorn.part)).files;
  const auto second = std::get<kit::StencilFiles>(kit::stencil_files(acorn.design, acorn.part)).files;
  ASSERT_EQ(first.size(), second.size());
  for (std::size_t i = 0; i < first.size(); ++i)
    EXPECT_TRUE(first[i].name == second[i].name && first[i].bytes == second[i].bytes) << first[i].name;
}

TEST(kit_stencil, stencil_files_leave_out_a_side_that_can_have_none_and_say_why) {
  Acorn acorn;
  std::erase_if(acorn.part.leaf.rows, [](const auto& row) { return row.side == Side::between; });
  const auto made_files = std::get<kit::StencilFiles>(kit::stencil_files(acorn.design, acorn.part));
  EXPECT_TRUE(std::none_of(made_files.files.begin(), made_files.files.end(),
                           [](const auto& f) { return f.name.find("between") != std::string::npos; }));
  ASSERT_EQ(made_files.remarks.size(), 1U);
}

TEST(kit_stencil, stencils_share_a_sheet_where_they_fit_and_stay_on_it) {
  const Acorn acorn;
  const std::vector<Stencil> both = {made(acorn.part.leaf, Side::inside, making_of(1)),
                                     made(acorn.part.leaf, Side::between, making_of(1))};
  const auto pages = kit::stencil_sheets(acorn.design, acorn.part, both, {}, {210, 297});
  ASSERT_EQ(pages.size(), 1U);
  EXPECT_EQ(pages.front().page.width_mm, 210);
  EXPECT_EQ(pages.front().page.height_mm, 297);
}

TEST(kit_stencil, a_card_larger_than_the_sheet_comes_whole_in_overlapping_parts) {
  const Acorn acorn;
  const std::vector<Stencil> one = {made(acorn.part.leaf, Side::inside, making_of(1))};
  const auto parts = kit::stencil_sheets(acorn.design, acorn.part, one, {}, {50, 50});
  const double height = one.front().head_z - one.front().foot_z;
  ASSERT_GE(parts.size(), 3U); // a card of about 60 x 60 mm, and the words
  // The card's own lines, put back where they belong, reach from edge to edge.
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  for (const auto& part : parts) {
    EXPECT_EQ(part.page.width_mm, 50);
    EXPECT_EQ(part.page.height_mm, 50);
    for (const auto& item : part.page.items) {
      const auto* path = std::get_if<drawing::Path>(&item);
      if (path == nullptr || path->step != drawing::Step::cut)
        continue;
      for (const auto& chords : kit::chords_of(*path))
        for (const drawing::Point& p : chords) {
          left = std::min(left, p.x - part.cards.front().x), right = std::max(right, p.x - part.cards.front().x);
          top = std::min(top, p.y - part.cards.front().y), bottom = std::max(bottom, p.y - part.cards.front().y);
        }
    }
  }
  EXPECT_NEAR(left, 0, 0.01);
  EXPECT_NEAR(top, 0, 0.01);
  EXPECT_NEAR(right, one.front().width_mm, 0.01);
  EXPECT_NEAR(bottom, height, 0.01);
}
