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

void add_rows(Page& page, const design::Design& design, const Part& part, const std::vector<Place>& places) {
  if (design.making.marks != design::MarkStyle::printed)
    return;
  for (const Place& place : places)
    for (const leaf::Face face : {leaf::Face::inner, leaf::Face::outer})
      add_rows(page, part.marks, face, place, GlueLook::framed);
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

MeasuredPage sheet(const design::Design& design, const Part& part, const LeafCuts& cuts, std::size_t index) {
  const design::Sheet& paper = part.size->sheet;
  const sheets::Layout& layout = part.plan.layouts[index];
  MeasuredPage result;
  Page& page = result.page;
  page.width_mm = paper.size.width_mm;
  page.height_mm = paper.size.height_mm;
  result.copies = layout.sheets;
  FreeRoom room(page.width_mm, page.height_mm, std::min(paper.margin_mm, printed_margin_mm));
  for (const sheets::Placement& placement : layout.placements) {
    result.leaves.push_back(on_sheet(placement, page.height_mm));
    std::vector<Point> ring;
    for (const leaf::Point& point : part.outline)
      ring.push_back(result.leaves.back()(point));
    room.take(ring);
  }
  add_cuts(page, cuts, result.leaves);
  add_rows(page, design, part, result.leaves);
  const std::string words = "sheet " + std::to_string(index + 1) + " of " + std::to_string(part.plan.layouts.size()) +
                            ": cut " + counted(static_cast<std::size_t>(layout.sheets), "copy", "copies") + ", " +
                            counted(layout.placements.size(), "leaf", "leaves") + " each, " +
                            decimal(part.size->paper.grammage_gsm, 0) + " g/m2";
  add_heading(page, room, paper.margin_mm, design.title + ", " + part.size->name, words);
  add_measures(result, room, paper.margin_mm, {0, 0}, {page.width_mm, 0});
  return result;
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
  add_rows(page, design, part, result.leaves);
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

CutPages cut_pages(const design::Design& design, const Part& part) {
  const LeafCuts cuts = leaf_cuts(part.leaf, part.marks, design.making);
  CutPages pages;
  for (std::size_t i = 0; i < part.plan.layouts.size(); ++i)
    pages.sheets.push_back(sheet(design, part, cuts, i));
  pages.leaf = one_leaf(design, part, cuts);
  return pages;
}

} // namespace fanwright::kit
