#include "kit/stencil_page.h"

#include "drawing/decimal.h"
#include "drawing/words.h"
#include "kit/tiles.h"
#include "kit/window.h"

#include <algorithm>
#include <optional>

namespace fanwright::kit {

namespace {

using drawing::Align;
using drawing::decimal;
using drawing::Page;
using drawing::Point;
using drawing::Step;
using drawing::Text;

constexpr double ruler_mm = 100;
constexpr double edge_mm = 6.35; // printers leave out up to 1/4 inch (common practice, no source)
constexpr double band_mm = 8;    // title and slim ruler along the top
constexpr double between_cards_mm = 5;
constexpr double foot_edge_mm = 5; // below a card; only its cut line is near
constexpr double words_mm = 2.9, line_mm = 4.1, paragraph_mm = 1.4;
constexpr double narrowest_words_mm = 55;

double height_of(const Stencil& stencil) { return stencil.head_z - stencil.foot_z; }

std::string name_of(const design::Design& design, const Part& part) { return design.title + ", " + part.size->name; }

void add_slim_ruler(Page& page, const Point& left) {
  page.items.push_back(drawing::polyline(Step::dimension, {left, {left.x + ruler_mm, left.y}}, false));
  for (int mm = 0; mm <= static_cast<int>(ruler_mm); mm += 10)
    page.items.push_back(drawing::polyline(
        Step::dimension, {{left.x + mm, left.y}, {left.x + mm, left.y + (mm % 50 == 0 ? 1.8 : 1.3)}}, false));
  page.items.push_back(Text{Step::dimension,
                            {left.x + ruler_mm + 2, left.y + 1.4},
                            2.2,
                            decimal(ruler_mm, 0) + " mm: print at 100 %, measure before you cut",
                            Align::left,
                            false});
}

/// The dab or bead in words.
std::string glue_words(GlueGiven glue, double bead_mm) {
  return glue == GlueGiven::dabs
             ? "Set one dab of glue, " + decimal(bead_mm, 1) + " mm across, at each tick, about every " +
                   decimal(dab_pitch_mm(bead_mm), 1) + " mm."
             : "Run one bead of glue, " + decimal(bead_mm, 1) + " mm across, from end to end of each window.";
}

std::vector<std::string> how_to(const std::vector<Stencil>& stencils, double bead_mm,
                                const std::vector<std::string>& remarks) {
  std::vector<std::string> words = {
      "Make: glue this page to smooth card of 250 to 300 g/m2 and let it dry flat under a weight. Cover it with clear "
      "tape: glue then wipes off. Cut the hatched windows first, then the card, on a mat along a metal ruler, hand "
      "behind the blade; grown-ups only. The straight edges at fold, foot and head must be exact; window ends may be "
      "left square.",
      "Tell apart: one notch is the inside card, two are the between card. The notches are near the head; the edge "
      "across from them lies at the fold. The dotted line is the half that lies underneath.",
      "Inside rows: lay the leaf open, inner face up, foot towards you. Raise its left half, lay the card on the right "
      "half and push it into the fold. The ends of the card are flush with the lowest and the highest point of the "
      "leaf: feel with a finger.",
      "Between rows, and the seam at the end: lay the leaf or packet folded, fold at the left, foot towards you, and "
      "the card on top. Push both "
      "against a straight stop along the fold; flush at foot and head as before. Turned over, either card serves a "
      "half with its "
      "fold at the right."};
  const GlueGiven first = stencils.front().glue, last = stencils.back().glue;
  const std::string glue =
      first == last ? glue_words(first, bead_mm)
                    : "Inside rows: " + glue_words(first, bead_mm) + " Between rows: " + glue_words(last, bead_mm);
  words.push_back(glue + " Then lift the card straight up, wipe it and lay it on the next leaf.");
  words.insert(words.end(), remarks.begin(), remarks.end());
  return words;
}

/// Height of the paragraphs, set in lines `width_mm` wide; drawn when there is a page.
double set_words(Page* page, const Point& corner, double width_mm, const std::vector<std::string>& paragraphs) {
  double y = corner.y;
  for (const std::string& paragraph : paragraphs) {
    for (const std::string& line : drawing::broken_into_lines(paragraph, width_mm, words_mm)) {
      y += line_mm;
      if (page != nullptr)
        page->items.push_back(Text{Step::legend, {corner.x, y}, words_mm, line, Align::left, false});
    }
    y += paragraph_mm;
  }
  return y - corner.y;
}

/// Cards on one page: in a row, or one above the other.
struct Arrangement {
  paper::SheetSize sheet;
  std::size_t cards = 1;
  bool stacked = false;
  bool parts = false; ///< no card fits the sheet
};

/// Room that `count` cards take, without edges; all stencils of a size have the same card but for the notches.
paper::SheetSize room_for(const Stencil& card, std::size_t count, bool stacked) {
  const double n = static_cast<double>(count), gaps = (n - 1) * between_cards_mm;
  return stacked ? paper::SheetSize{card.width_mm, n * height_of(card) + gaps}
                 : paper::SheetSize{n * card.width_mm + gaps, height_of(card)};
}

bool fits(const paper::SheetSize& room, const paper::SheetSize& sheet) {
  return room.width_mm <= sheet.width_mm - 2 * edge_mm &&
         room.height_mm <= sheet.height_mm - edge_mm - band_mm - foot_edge_mm;
}

Arrangement arrangement(const Stencil& card, std::size_t count, const paper::SheetSize& sheet) {
  const paper::SheetSize lying{sheet.height_mm, sheet.width_mm};
  for (std::size_t cards = count; cards > 0; --cards)
    for (const bool stacked : {false, true})
      for (const paper::SheetSize& way : {sheet, lying})
        if (fits(room_for(card, cards, stacked), way))
          return {way, cards, stacked, false};
  return {sheet, 1, false, true};
}

StencilPage empty_page(const paper::SheetSize& sheet, const std::string& title) {
  StencilPage result;
  result.page.width_mm = sheet.width_mm;
  result.page.height_mm = sheet.height_mm;
  const double title_mm = drawing::fitted_size_mm(title, sheet.width_mm - 2 * edge_mm, 3.2, true);
  result.page.items.push_back(Text{Step::legend, {edge_mm, edge_mm + 2.6}, title_mm, title, Align::left, true});
  result.ruler_left = {edge_mm, edge_mm + 4.4};
  add_slim_ruler(result.page, result.ruler_left);
  return result;
}

/// A card larger than the sheet, in overlapping parts.
void add_parts(const leaf::Leaf& leaf, const Stencil& stencil, const StencilLook& look, const std::string& title,
               const paper::SheetSize& sheet, std::vector<StencilPage>& pages) {
  constexpr double rim_mm = 1; // so that no line lies on a window's edge
  Page whole;
  add_stencil(whole, leaf, stencil, look, {0, 0});
  const PageBox box{-rim_mm, -rim_mm, stencil.width_mm + rim_mm, height_of(stencil) + rim_mm};
  const Point corner{edge_mm, edge_mm + band_mm};
  const Tiling tiling =
      tiling_of(box, sheet.width_mm - 2 * edge_mm, sheet.height_mm - edge_mm - band_mm - foot_edge_mm);
  const std::string side = stencil.side == design::Side::inside ? ", inside" : ", between";
  for (int row = 0; row < tiling.rows; ++row)
    for (int column = 0; column < tiling.columns; ++column) {
      const PageBox window = tiling.window(column, row);
      const auto items = seen_through(whole.items, window, corner);
      if (items.empty())
        continue;
      StencilPage part = empty_page(sheet, title + side + ": part " + tiling.name(column, row));
      part.page.items.insert(part.page.items.end(), items.begin(), items.end());
      const auto joining = seen_through(joints(tiling), window, corner);
      part.page.items.insert(part.page.items.end(), joining.begin(), joining.end());
      part.cards = {{corner.x - window.left, corner.y - window.top}};
      pages.push_back(std::move(part));
    }
}

/// Puts the words beside or below the cards; says whether there was room.
bool words_beside(StencilPage& result, const paper::SheetSize& cards, const std::vector<std::string>& words) {
  Page& page = result.page;
  const double top = edge_mm + band_mm, left = edge_mm + cards.width_mm + between_cards_mm;
  const double side = page.width_mm - edge_mm - left;
  if (side >= narrowest_words_mm && set_words(nullptr, {}, side, words) <= page.height_mm - edge_mm - top) {
    set_words(&page, {left, top}, side, words);
    return true;
  }
  const double under = top + cards.height_mm + between_cards_mm, width = page.width_mm - 2 * edge_mm;
  if (set_words(nullptr, {}, width, words) > page.height_mm - edge_mm - under)
    return false;
  set_words(&page, {edge_mm, under}, width, words);
  return true;
}

} // namespace

StencilPage stencil_page(const design::Design& design, const Part& part, const Stencil& stencil) {
  constexpr double white_mm = 10, heading_mm = 20, ruler_band_mm = 14, least_width_mm = 150;
  StencilPage result;
  Page& page = result.page;
  page.width_mm = std::max(stencil.width_mm + 2 * white_mm, least_width_mm);
  page.height_mm = heading_mm + height_of(stencil) + white_mm + ruler_band_mm;
  result.cards = {{white_mm, heading_mm}};
  result.ruler_left = {white_mm, heading_mm + height_of(stencil) + white_mm / 2};
  const std::string side = stencil.side == design::Side::inside ? "inside" : "between";
  const std::string title = name_of(design, part) + ": stencil for the " + side + " rows";
  const double title_mm = drawing::fitted_size_mm(title, page.width_mm - 2 * white_mm, 4.6, true);
  page.items.push_back(Text{Step::legend, {white_mm, 9}, title_mm, title, Align::left, true});
  const std::string advice = "Cut one from card of 250 to 300 g/m2. " + glue_words(stencil.glue, design.making.bead_mm);
  const double advice_mm = drawing::fitted_size_mm(advice, page.width_mm - 2 * white_mm, 2.8, false);
  page.items.push_back(Text{Step::legend, {white_mm, 14.5}, advice_mm, advice, Align::left, false});
  add_stencil(page, part.leaf, stencil, {name_of(design, part), false}, result.cards.front());
  drawing::add_ruler(page, result.ruler_left, ruler_mm);
  return result;
}

std::vector<StencilPage> stencil_sheets(const design::Design& design, const Part& part,
                                        const std::vector<Stencil>& stencils, const std::vector<std::string>& remarks,
                                        const paper::SheetSize& sheet) {
  const Arrangement way = arrangement(stencils.front(), stencils.size(), sheet);
  const paper::SheetSize one = room_for(stencils.front(), 1, false);
  const std::string title = name_of(design, part) + ": stencils for the glue rows";
  const StencilLook look{name_of(design, part), true};
  std::vector<std::string> words = how_to(stencils, design.making.bead_mm, remarks);
  std::vector<StencilPage> pages;
  if (way.parts) {
    words.insert(words.begin(),
                 "The cards are larger than the sheet and come in parts that overlap by 10 mm. Cut one of "
                 "two neighbours along the dotted line in the overlap, lay it on the other so that line "
                 "and numbered diamonds meet, and tape it; then glue the whole to the card.");
    for (const Stencil& stencil : stencils)
      add_parts(part.leaf, stencil, look, title, sheet, pages);
    pages.push_back(empty_page(sheet, title));
    set_words(&pages.back().page, {edge_mm, edge_mm + band_mm}, sheet.width_mm - 2 * edge_mm, words);
    return pages;
  }
  for (std::size_t i = 0; i < stencils.size(); i += way.cards) {
    StencilPage result = empty_page(way.sheet, title);
    Point corner{edge_mm, edge_mm + band_mm};
    for (std::size_t k = i; k < std::min(i + way.cards, stencils.size()); ++k) {
      add_stencil(result.page, part.leaf, stencils[k], look, corner);
      result.cards.push_back(corner);
      (way.stacked ? corner.y : corner.x) += between_cards_mm + (way.stacked ? one.height_mm : one.width_mm);
    }
    pages.push_back(std::move(result));
  }
  if (!words_beside(pages.front(), room_for(stencils.front(), way.cards, way.stacked), words)) {
    pages.push_back(empty_page(sheet, title));
    set_words(&pages.back().page, {edge_mm, edge_mm + band_mm}, sheet.width_mm - 2 * edge_mm, words);
  }
  return pages;
}

} // namespace fanwright::kit
