#include "kit/cut_pages.h"

#include "drawing/decimal.h"
#include "kit/leaf_lines.h"
#include "kit/page_measures.h"
#include "kit/page_notes.h"

#include <algorithm>
#include <cmath>

namespace fanwright::kit {

namespace {

using drawing::decimal;
using drawing::Page;
using drawing::Point;

void add_rows(Page& page, const design::Design& design, const leaf::Marks& marks, const std::vector<Place>& places) {
  if (design.making.marks != design::MarkStyle::printed)
    return;
  for (const Place& place : places)
    for (const leaf::Face face : {leaf::Face::inner, leaf::Face::outer})
      add_rows(page, marks, face, place, GlueLook::framed);
}

/// What the lines of a cutting file are, as far as this design has them.
std::vector<KeyLine> key_of(const design::Design& design) {
  std::vector<KeyLine> lines = {{Sample::cut, "cut"}};
  const bool dashes = design.making.score == design::ScoreStyle::dashes;
  lines.push_back(dashes ? KeyLine{Sample::cut, "short cuts along the spine: fold there, this face inward"}
                         : KeyLine{Sample::score, "score, then fold: this face inward"});
  if (design.making.marks == design::MarkStyle::nicks)
    lines.push_back({Sample::cut, "nicks across the spine: one, glue inside; two, glue between"});
  if (design.making.marks == design::MarkStyle::printed) {
    lines.push_back({Sample::inside_framed, "glue inside: on this face, one half to the other"});
    lines.push_back({Sample::between_framed, "glue between: on the back, leaf to leaf"});
  }
  return lines;
}

std::string leaf_words(const Part& part) {
  return "leaf " + decimal(part.width_mm, 1) + " x " + decimal(part.height_mm, 1) + " mm, " +
         std::to_string(part.size->leaves) + " needed, " + decimal(part.size->paper.grammage_gsm, 0) + " g/m2";
}

/// What lies on a sheet: leaves, or halves of leaves.
struct LaidPiece {
  const LeafCuts* cuts = nullptr;
  const leaf::Marks* marks = nullptr;
  const leaf::Ring* outline = nullptr;
  Place place;
};

struct SheetToCut {
  std::vector<LaidPiece> pieces;
  int copies = 1;
  std::string words; ///< "12 leaves"
};

MeasuredPage sheet(const design::Design& design, const Part& part, const SheetToCut& cut, std::size_t number,
                   std::size_t of) {
  const design::Sheet& paper = part.size->sheet;
  MeasuredPage result;
  Page& page = result.page;
  page.width_mm = paper.size.width_mm;
  page.height_mm = paper.size.height_mm;
  result.copies = cut.copies;
  FreeRoom room(page.width_mm, page.height_mm, std::min(paper.margin_mm, printed_margin_mm));
  std::vector<LaidCuts> cuts;
  for (const LaidPiece& piece : cut.pieces) {
    std::vector<Point> ring;
    for (const leaf::Point& point : *piece.outline)
      ring.push_back(piece.place(point));
    room.take(ring);
    cuts.push_back({piece.cuts, piece.place});
  }
  add_cuts(page, cuts);
  for (const LaidPiece& piece : cut.pieces)
    add_rows(page, design, *piece.marks, {piece.place});
  const std::string words = "sheet " + std::to_string(number) + " of " + std::to_string(of) + ": cut " +
                            counted(static_cast<std::size_t>(cut.copies), "copy", "copies") + ", " + cut.words +
                            " each, " + decimal(part.size->paper.grammage_gsm, 0) + " g/m2";
  add_heading(page, room, paper.margin_mm, design.title + ", " + part.size->name, words);
  add_measures(result, room, paper.margin_mm, {0, 0}, {page.width_mm, 0});
  return result;
}

std::vector<MeasuredPage> sheets_of_leaves(const design::Design& design, const Part& part, const LeafCuts& cuts) {
  std::vector<MeasuredPage> pages;
  const std::vector<sheets::Layout>& layouts = part.plan.layouts;
  for (const sheets::Layout& layout : layouts) {
    SheetToCut cut{{}, layout.sheets, counted(layout.placements.size(), "leaf", "leaves")};
    std::vector<Place> places;
    for (const sheets::Placement& placement : layout.placements) {
      places.push_back(on_sheet(placement, part.size->sheet.size.height_mm));
      cut.pieces.push_back({&cuts, &part.marks, &part.outline, places.back()});
    }
    pages.push_back(sheet(design, part, cut, pages.size() + 1, layouts.size()));
    pages.back().leaves = std::move(places);
  }
  return pages;
}

/// The right half is cut, scored and nicked like a leaf; the left one ends at the spine.
std::vector<MeasuredPage> sheets_of_halves(const design::Design& design, const Part& part, const Halves& halves) {
  const LeafCuts right = leaf_cuts(part.leaf, halves.right.marks, design.making);
  const LeafCuts left = plain_cuts(halves.left.marks);
  std::vector<MeasuredPage> pages;
  for (const sheets::JobSheet& laid : halves.plan.sheets) {
    SheetToCut cut{{}, laid.copies, {}};
    std::vector<Place> rights, lefts;
    for (const sheets::JobPiece& piece : laid.pieces) {
      const bool is_right = piece.kind == 0;
      const Place place = on_sheet(piece.placement, part.size->sheet.size.height_mm);
      (is_right ? rights : lefts).push_back(place);
      const HalfPiece& half = is_right ? halves.right : halves.left;
      cut.pieces.push_back({is_right ? &right : &left, &half.marks, &half.outline, place});
    }
    cut.words = words_of_halves(rights.size(), lefts.size());
    pages.push_back(sheet(design, part, cut, pages.size() + 1, halves.plan.sheets.size()));
    for (const Place& place : rights)
      add_strip(pages.back().page, leaf::Face::inner, halves.glue, place, GlueLook::framed);
    if (design.making.marks == design::MarkStyle::printed)
      for (const Place& place : lefts)
        add_strip(pages.back().page, leaf::Face::outer, halves.glue, place, GlueLook::framed);
    pages.back().right_halves = std::move(rights), pages.back().left_halves = std::move(lefts);
  }
  return pages;
}

MeasuredPage one_leaf(const design::Design& design, const Part& part, const LeafCuts& cuts) {
  constexpr double edge = 10, heading = 16;
  MeasuredPage result;
  result.shows = "cut leaf";
  result.copies = part.size->leaves;
  Page& page = result.page;
  page.width_mm = std::ceil(std::max(part.width_mm + 2 * edge, 2 * edge + double_scale_width_mm + square_mm));
  const double foot = heading + part.height_mm + edge;
  const double scale_y = foot + edge;
  page.height_mm = std::ceil(scale_y + square_mm + edge);
  result.leaves = {Place{0, false, {page.width_mm / 2 - part.left_mm - part.width_mm / 2, foot + part.bottom_mm}}};
  add_cuts(page, cuts, result.leaves);
  add_rows(page, design, part.marks, result.leaves);
  Column column(page, {edge, 5}, page.width_mm - 2 * edge);
  const std::string title = design.title + ", " + part.size->name;
  column.write(title, drawing::fitted_size_mm(title, page.width_mm - 2 * edge, 5, true), true);
  column.write(leaf_words(part), 3);
  if (!cuts.rows_not_nicked.empty())
    column.write(
        "no room for nicks at " + counted(cuts.rows_not_nicked.size(), "row", "rows") + ": use the stencil there", 3);
  add_double_scale(result, {edge - 2, scale_y});
  add_square(result, {page.width_mm - edge - square_mm, scale_y});
  add_key(page, {edge, scale_y + double_scale_height_mm + 5}, key_of(design));
  add_grain(page, {edge / 2, foot - grain_height_mm}, part.size->paper.grain == paper::Grain::along_spine);
  return result;
}

} // namespace

std::string words_of_halves(std::size_t right, std::size_t left) {
  const auto words = [](std::size_t count, const std::string& side) {
    return counted(count, side + " half", side + " halves");
  };
  if (right == 0 || left == 0)
    return right > 0 ? words(right, "right") : words(left, "left");
  return words(right, "right") + " and " + words(left, "left");
}

CutPages cut_pages(const design::Design& design, const Part& part) {
  const LeafCuts cuts = leaf_cuts(part.leaf, part.marks, design.making);
  CutPages pages;
  pages.sheets = part.halves ? sheets_of_halves(design, part, *part.halves) : sheets_of_leaves(design, part, cuts);
  pages.leaf = one_leaf(design, part, cuts);
  return pages;
}

} // namespace fanwright::kit
