#include "kit/fan_pages.h"

#include "drawing/cutting_order.h"
#include "drawing/decimal.h"
#include "kit/check_page.h"
#include "kit/page_measures.h"
#include "kit/page_notes.h"
#include "leaf/leaf.h"

#include <algorithm>
#include <array>

namespace fanwright::kit {

namespace {

using drawing::decimal;
using drawing::Page;
using drawing::Point;
using drawing::Step;

constexpr double glue_inset_mm = 0.8;
constexpr double hatch_spacing_mm = 1.6;
constexpr double print_gap_mm = 2;

std::vector<Point> glue_corners(const fan::StripPart& part, const fan::GlueStretch& glue, const Place& place) {
  const leaf::Ring ring = leaf::flatten(part.cut, leaf::flatten_tolerance_mm);
  const double left = glue.from_x + glue_inset_mm, right = glue.to_x - glue_inset_mm;
  const auto [left_low, left_high] = fan::paper_at(ring, left);
  const auto [right_low, right_high] = fan::paper_at(ring, right);
  return {place({left, left_low + glue_inset_mm}), place({right, right_low + glue_inset_mm}),
          place({right, right_high - glue_inset_mm}), place({left, left_high - glue_inset_mm})};
}

/// The piece's code, upright on the page, in the pinch of the gathered end, where it does not show.
void add_code(Page& page, const FanPiece& piece, const Place& place) {
  constexpr double size_mm = 2, inset_mm = 0.8, capital = 0.73;
  Point corner = place({std::max(piece.part.cut.start.x, 0.0), 0});
  const bool upside_down = place.turn_deg == 180;
  corner.x += upside_down ? -inset_mm : inset_mm;
  corner.y += upside_down ? inset_mm + capital * size_mm : -inset_mm;
  page.items.push_back(drawing::Text{Step::legend,
                                     corner,
                                     size_mm,
                                     piece.code,
                                     upside_down ? drawing::Align::right : drawing::Align::left,
                                     false,
                                     {}});
}

void add_piece(Page& page, const FanPiece& piece, const Place& place, bool for_print, bool marked) {
  std::vector<drawing::Path> lines;
  for (const fan::Score& score : piece.part.scores)
    lines.push_back(drawing::polyline(score.fold == fan::Fold::mountain ? Step::reverse_score : Step::score,
                                      {place(score.from), place(score.to)}, false));
  lines.push_back(path_of(Step::cut, piece.part.cut, place));
  for (drawing::Path& line : drawing::in_cutting_order(std::move(lines)))
    page.items.push_back(std::move(line));
  for (const fan::GlueStretch& glue : piece.part.glue) {
    if (!for_print && !marked)
      continue;
    const auto corners = glue_corners(piece.part, glue, place);
    page.items.push_back(drawing::polyline(Step::glue_inside, corners, true));
    if (for_print)
      page.items.push_back(drawing::hatched(Step::glue_inside, corners, 45, hatch_spacing_mm));
  }
  if (for_print) {
    add_code(page, piece, place);
  }
}

/// "A wing, right; B wing, left".
std::string strips_on(const FanLayout& layout, const sheets::JobSheet& sheet) {
  std::string words, last;
  for (std::size_t kind = 0; kind < layout.pieces.size(); ++kind) {
    const bool here = std::any_of(sheet.pieces.begin(), sheet.pieces.end(),
                                  [&](const sheets::JobPiece& piece) { return piece.kind == kind; });
    const FanPiece& piece = layout.pieces[kind];
    if (!here || piece.strip == last)
      continue;
    last = piece.strip;
    words += (words.empty() ? "" : "; ") + piece.code.substr(0, 1) + " " + piece.strip;
  }
  return words;
}

MeasuredPage page_of(const design::Design& design, const FanLayout& layout, const sheets::JobSheet& laid,
                     const design::Sheet& sheet, bool for_print) {
  MeasuredPage result;
  result.shows = "fans";
  result.copies = laid.copies;
  Page& page = result.page;
  page.width_mm = sheet.size.width_mm;
  page.height_mm = sheet.size.height_mm;
  for (const sheets::JobPiece& piece : laid.pieces)
    add_piece(page, layout.pieces[piece.kind], on_sheet(piece.placement, page.height_mm), for_print,
              design.making.marks == design::MarkStyle::printed);
  return result;
}

void add_notes(MeasuredPage& result, const FanLayout& layout, const sheets::JobSheet& laid, double margin_mm,
               const std::string& title, const std::string& number) {
  FreeRoom room(result.page.width_mm, result.page.height_mm, std::min(margin_mm, printed_margin_mm));
  for (const sheets::JobPiece& piece : laid.pieces) {
    const Place place = on_sheet(piece.placement, result.page.height_mm);
    std::vector<Point> ring;
    for (const leaf::Point& point : leaf::flatten(layout.pieces[piece.kind].part.cut, leaf::flatten_tolerance_mm))
      ring.push_back(place(point));
    room.take_widely(ring);
  }
  add_heading(result.page, room, margin_mm, title,
              number + strips_on(layout, laid) + ", " + decimal(layout.paper.grammage_gsm, 0) + " g/m2");
  add_measures(result, room, margin_mm, {0, 0}, {result.page.width_mm, 0});
  add_grain(result.page, room, {result.page.width_mm, 0}, true);
}

std::vector<std::string> paragraphs_of(const std::vector<fan::SizedFan>& fans) {
  std::vector<std::string> list;
  for (const fan::SizedFan& fan : fans) {
    const fan::Spread& spread = fan.made.spread;
    list.push_back(fan.fan->name + ": " + counted(fan.made.strip.panels / 2, "pleat", "pleats") + " (" +
                   std::to_string(fan.made.strip.panels) + " panels) " + decimal(fan.made.strip.depth_mm, 1) +
                   " mm deep; spread to " + decimal(spread.spread_deg(), 0) + " degrees it reaches " +
                   decimal(spread.outer_radius_mm(), 1) + " mm from its centre." +
                   (fan.fan->pair ? " A pair: right and left are mirror images." : ""));
  }
  list.push_back(
      "The printed face is the front. The grain runs along the pleats, as the arrow shows. A strip in several "
      "parts is joined on the hatched laps before it is folded: part 2 is glued on part 1, and so on.");
  return list;
}

} // namespace

std::vector<MeasuredPage> fan_pages(const design::Design& design, const design::Size& size,
                                    const std::vector<FanLayout>& layouts, const design::Sheet& sheet, bool for_print) {
  std::vector<MeasuredPage> pages;
  std::size_t all = for_print ? 1 : 0;
  for (const FanLayout& layout : layouts)
    all += layout.plan.sheets.size();
  for (const FanLayout& layout : layouts)
    for (const sheets::JobSheet& laid : layout.plan.sheets) {
      MeasuredPage page = page_of(design, layout, laid, sheet, for_print);
      const std::string number = (for_print ? "page " : "fans, sheet ") +
                                 std::to_string(pages.size() + (for_print ? 2 : 1)) + " of " + std::to_string(all) +
                                 ": ";
      add_notes(page, layout, laid, for_print ? printed_margin_mm : sheet.margin_mm, design.title + ", " + size.name,
                number);
      pages.push_back(std::move(page));
    }
  return pages;
}

std::optional<PrintFile> fan_print_file(const design::Design& design, const Part& part, const PrintPaper& paper) {
  const design::Sheet sheet{paper.name, paper.size, printed_margin_mm, print_gap_mm};
  const auto layouts = fan_layouts(part.fans, sheet);
  if (std::holds_alternative<design::Refusal>(layouts))
    return std::nullopt;
  std::vector<MeasuredPage> pages =
      fan_pages(design, *part.size, std::get<std::vector<FanLayout>>(layouts), sheet, true);
  const CheckWords words{design.title + ", " + part.size->name + ", fans",
                         "page 1 of " + std::to_string(pages.size() + 1),
                         paragraphs_of(part.fans),
                         {{Sample::cut, "cut"},
                          {Sample::score, "score, valley: the crease goes away from you"},
                          {Sample::reverse_score, "score, mountain: the crease comes towards you"},
                          {Sample::inside_hatched, "glue here, on this face"}}};
  pages.insert(pages.begin(), check_page(paper.size, words, false).measured);
  return PrintFile{"print-fans-" + std::string(paper.name) + ".pdf", paper.name,
                   "the strips of the fans to print on " + std::string(paper.name) + " and cut by hand",
                   std::move(pages)};
}

} // namespace fanwright::kit
