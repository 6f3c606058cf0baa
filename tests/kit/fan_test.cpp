#include "kit/fan_pages.h"

#include "drawing/dxf.h"
#include "drawing/pdf.h"
#include "drawing/svg.h"
#include "kit/page_measures.h"
#include "kit/window.h"
#include "leaf/contour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

using namespace fanwright;
using namespace fanwright::kit;

namespace {

design::Design design_of(const std::string& fans, const std::string& sheet = "A4") {
  const auto parsed = design::parse(R"({ "fanwright": 1, "title": "Acorn",
    "silhouette": { "path": "M 0 0 H 12 A 22 22 0 0 1 12 44 L 0 60 Z", "shows": "flat" },
    "leaves": 30, "rows": { "count": 5 }, "paper": { "grammage": 120 }, "sheet": { "size": ")" +
                                    sheet + R"(" }, "fans": [)" + fans + "]}");
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
  return std::holds_alternative<design::Design>(parsed) ? std::get<design::Design>(parsed) : design::Design{};
}

const std::string wing =
    R"({ "name": "wing", "pair": true, "depth": 9, "pleats": 12, "outline": "M -50 40 Q 0 90 60 20" })";
const std::string collar = R"({ "name": "collar", "depth": 10, "pleats": 24, "length": 60 })";

Part part_of(const design::Design& design) {
  auto part = planned(design, design.sizes.front(), nullptr, nullptr);
  if (const auto* problem = std::get_if<Problem>(&part)) {
    ADD_FAILURE() << problem->where << ": " << problem->sentence;
    return {};
  }
  return std::get<Part>(std::move(part));
}

std::map<drawing::Step, int> paths_by_step(const std::vector<MeasuredPage>& pages) {
  std::map<drawing::Step, int> count;
  for (const MeasuredPage& page : pages)
    for (const drawing::Item& item : page.page.items)
      if (const auto* path = std::get_if<drawing::Path>(&item))
        ++count[path->step];
  return count;
}

bool inside(const std::vector<drawing::Point>& ring, const drawing::Point& p) {
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    if ((ring[i].y > p.y) != (ring[j].y > p.y) &&
        p.x < (ring[j].x - ring[i].x) * (p.y - ring[i].y) / (ring[j].y - ring[i].y) + ring[i].x)
      in = !in;
  return in;
}

/// How many pieces of paper on the page hold the point.
int pieces_round(const MeasuredPage& page, const drawing::Point& point) {
  int count = 0;
  for (const drawing::Item& item : page.page.items)
    if (const auto* path = std::get_if<drawing::Path>(&item); path && path->step == drawing::Step::cut)
      count += inside(chords_of(*path).front(), point) ? 1 : 0;
  return count;
}

} // namespace

TEST(kit_fans, every_piece_lies_once_on_a_sheet_with_its_pleats_upright) {
  const auto design = design_of(wing + "," + collar);
  const Part part = part_of(design);
  ASSERT_EQ(part.fan_layouts.size(), 1U);
  const FanLayout& layout = part.fan_layouts.front();
  // Wings of 24 x 9 + 7 mm in two parts each; a collar of 48 x 10 + 8 mm in three.
  ASSERT_EQ(layout.pieces.size(), 7U);
  std::map<std::size_t, int> laid;
  for (const sheets::JobSheet& sheet : layout.plan.sheets)
    for (const sheets::JobPiece& piece : sheet.pieces) {
      laid[piece.kind] += sheet.copies;
      EXPECT_EQ(piece.placement.turn_deg % 180, 0) << "the grain runs along the pleats";
      EXPECT_FALSE(piece.mirrored) << "a strip laid face down has its mountains for valleys";
    }
  EXPECT_EQ(laid.size(), layout.pieces.size());
  EXPECT_TRUE(std::all_of(laid.begin(), laid.end(), [](const auto& kind) { return kind.second == 1; }));
}

TEST(kit_fans, both_kinds_of_score_are_drawn_for_every_crease) {
  const auto design = design_of(wing + "," + collar);
  const Part part = part_of(design);
  const auto count = paths_by_step(fan_pages(design, *part.size, part.fan_layouts, part.size->sheet, false));
  // Of N panels with a flap: N / 2 valleys, the flap's among them, and N / 2 mountains.
  EXPECT_EQ(count.at(drawing::Step::score), 12 + 12 + 24);
  EXPECT_EQ(count.at(drawing::Step::reverse_score), 12 + 12 + 24);
  EXPECT_EQ(count.at(drawing::Step::cut), 7);
}

TEST(kit_fans, files_name_both_scores_as_the_standard_does) {
  const auto design = design_of(collar);
  const Part part = part_of(design);
  const auto pages = fan_pages(design, *part.size, part.fan_layouts, part.size->sheet, false);
  const std::string svg = drawing::svg(pages.front().page, "fans"), dxf = drawing::dxf(pages.front().page, "fans");
  EXPECT_NE(svg.find("id=\"score\""), std::string::npos);
  EXPECT_NE(svg.find("id=\"score-back\""), std::string::npos);
  EXPECT_NE(dxf.find("SCORE_BACK"), std::string::npos);
  const auto pdf = drawing::pdf({pages.front().page}, {"fans", {}, {}, "en"});
  const auto& bytes = std::get<std::string>(pdf);
  // ISO 19593-1: the types of the group Structural.
  EXPECT_NE(bytes.find("/Creasing"), std::string::npos);
  EXPECT_NE(bytes.find("/ReverseCreasing"), std::string::npos);
}

TEST(kit_fans, a_print_has_a_page_to_check_and_carries_its_measures) {
  const auto design = design_of(wing);
  const Part part = part_of(design);
  for (const PrintPaper& paper : print_papers()) {
    const auto file = fan_print_file(design, part, paper);
    ASSERT_TRUE(file);
    EXPECT_EQ(file->name, "print-fans-" + std::string(paper.name) + ".pdf");
    ASSERT_GE(file->pages.size(), 2U);
    EXPECT_EQ(file->pages.front().shows, "check");
    for (const MeasuredPage& page : file->pages) {
      EXPECT_TRUE(page.millimetres);
      EXPECT_TRUE(page.inches);
      EXPECT_TRUE(page.square || (page.foot && page.left_side));
    }
  }
}

TEST(kit_fans, glue_stays_on_the_paper) {
  const auto design = design_of(wing + "," + collar);
  const Part part = part_of(design);
  for (const MeasuredPage& page : fan_pages(design, *part.size, part.fan_layouts, part.size->sheet, false))
    for (const drawing::Item& item : page.page.items)
      if (const auto* path = std::get_if<drawing::Path>(&item); path && path->step == drawing::Step::glue_inside) {
        const auto chords = chords_of(*path);
        for (const drawing::Point& corner : chords.front())
          EXPECT_EQ(pieces_round(page, corner), 1) << corner.x << ", " << corner.y;
      }
}

TEST(kit_fans, papers_of_their_own_lie_on_sheets_of_their_own) {
  const auto design = design_of(
      collar +
      R"(, { "name": "tail", "depth": 10, "pleats": 9, "length": 60, "spread": 90, "paper": { "grammage": 80 } })");
  const Part part = part_of(design);
  ASSERT_EQ(part.fan_layouts.size(), 2U);
  EXPECT_EQ(part.fan_layouts[1].paper.grammage_gsm, 80);
  EXPECT_EQ(sheets_in(part.fan_layouts, part.size->paper), part.fan_layouts[0].plan.sheets_in_all);
}

TEST(kit_fans, work_counts_parts_creases_and_strips) {
  const auto design = design_of(wing + "," + collar);
  const Part part = part_of(design);
  const making::FanWork work = work_of(part.fan_layouts);
  EXPECT_EQ(work.strips, 3); // right, left, collar
  std::size_t pieces = 0;
  double area = 0;
  for (const FanLayout& layout : part.fan_layouts)
    for (const FanPiece& piece : layout.pieces) {
      ++pieces;
      area += leaf::signed_area(piece.part.cut);
    }
  EXPECT_EQ(work.parts, static_cast<int>(pieces));
  // Of each strip of N panels, the N creases counted from its flap.
  EXPECT_EQ(work.creases, 24 + 24 + 48);
  EXPECT_NEAR(work.paper_g, area * 120e-6, 1e-9);
  EXPECT_GT(work.bead_mm, 3 * (24 + 24 + 48)); // 3 mm between any two panels, and along flaps and laps
}

TEST(kit_fans, measures_keep_a_breath_away_from_the_strips) {
  const auto design = design_of(wing + "," + collar);
  const Part part = part_of(design);
  int squares = 0;
  for (const PrintPaper& paper : print_papers()) {
    const auto file = fan_print_file(design, part, paper);
    ASSERT_TRUE(file);
    for (const MeasuredPage& page : file->pages) {
      if (!page.square || page.shows != "fans")
        continue;
      ++squares;
      for (const drawing::Item& item : page.page.items)
        if (const auto* path = std::get_if<drawing::Path>(&item); path && path->step == drawing::Step::cut)
          for (const auto& chords : chords_of(*path))
            for (const drawing::Point& p : chords) {
              const double beside = std::max({page.square->x - p.x, p.x - page.square->x - square_mm,
                                              page.square->y - p.y, p.y - page.square->y - square_mm});
              EXPECT_GE(beside, 1) << p.x << ", " << p.y;
            }
    }
  }
  EXPECT_GT(squares, 0);
}

TEST(kit_fans, a_fan_longer_than_the_sheet_is_refused_before_anything_is_written) {
  const auto design = design_of(R"({ "name": "tail", "depth": 20, "pleats": 9, "length": 400, "spread": 40 })");
  const auto part = planned(design, design.sizes.front(), nullptr, nullptr);
  ASSERT_TRUE(std::holds_alternative<Problem>(part));
  EXPECT_EQ(std::get<Problem>(part).where, "/sheet");
  EXPECT_NE(std::get<Problem>(part).sentence.find("tail"), std::string::npos) << std::get<Problem>(part).sentence;
}

TEST(kit_fans, codes_stand_on_their_pieces_whichever_way_these_lie) {
  const auto design = design_of(wing + "," + collar);
  const Part part = part_of(design);
  const auto file = fan_print_file(design, part, print_papers().front());
  ASSERT_TRUE(file);
  int codes = 0;
  for (const MeasuredPage& page : file->pages)
    for (const drawing::Item& item : page.page.items) {
      const auto* text = std::get_if<drawing::Text>(&item);
      if (text == nullptr || text->words.size() != 2 || text->size_mm != 2)
        continue;
      ++codes;
      // The middle of the letters lies on one piece of paper.
      const drawing::Point middle{text->baseline.x + (text->align == drawing::Align::right ? -1 : 1),
                                  text->baseline.y - 0.7};
      EXPECT_EQ(pieces_round(page, middle), 1) << text->words;
    }
  EXPECT_EQ(codes, 7);
}
