#include "kit/template_parts.h"

#include "drawing/decimal.h"
#include "kit/check_page.h"
#include "kit/leaf_lines.h"
#include "kit/page_measures.h"
#include "kit/tiles.h"
#include "kit/window.h"

#include <algorithm>
#include <utility>

namespace fanwright::kit {

namespace {

using drawing::decimal;
using drawing::Page;
using drawing::Point;
using drawing::Step;

constexpr double heading_band_mm = 28; // heading and scale above a part
constexpr double notes_band_mm = 54;   // heading, scale and square above a whole leaf
constexpr double rim_mm = 1;           // paper around the leaf's box in parts, so that no line lies on a window's edge

/// A template before it is put on pages: drawn with its leaf's (0, 0) at the page's origin.
struct Template {
  bool half = false;
  int turn_deg = 0;
  std::vector<drawing::Item> items;
  PageBox box;
  Tiling tiling; ///< a single window: it fits the page
  bool parts() const { return tiling.columns * tiling.rows > 1; }
};

/// The right half alone: everything but the stretch on the spine is cut, which becomes the fold.
void add_half(Page& page, const Part& part, const Place& place) {
  for (const leaf::Contour& cut_out : part.leaf.cut_outs)
    page.items.push_back(path_of(Step::cut, cut_out, place));
  leaf::Contour open = part.leaf.outline;
  open.segments.pop_back(); // leaf::build() leaves the stretch on the spine last
  drawing::Path cut = path_of(Step::cut, open, place);
  cut.segments.pop_back(); // the closing
  page.items.push_back(cut);
  page.items.push_back(
      drawing::polyline(Step::score, {place(part.marks.score_foot), place(part.marks.score_top)}, false));
}

Template template_of(const Part& part, bool half, int turn_deg) {
  Template result;
  result.half = half;
  result.turn_deg = turn_deg;
  const Place place{turn_deg, false, {0, 0}};
  Page page;
  leaf::Marks marks = part.marks;
  if (half) {
    add_half(page, part, place);
    std::erase_if(marks.glue, [](const leaf::GlueMark& mark) { return mark.half == leaf::Half::left; });
  } else {
    design::Making by_hand;
    add_cuts(page, leaf_cuts(part.leaf, part.marks, by_hand), {place});
  }
  for (const leaf::Face face : {leaf::Face::inner, leaf::Face::outer})
    add_rows(page, marks, face, place, GlueLook::hatched);
  result.items = std::move(page.items);
  leaf::Ring ring = half ? leaf::flatten(part.leaf.outline, leaf::flatten_tolerance_mm) : part.outline;
  result.box = box_of(ring, place);
  return result;
}

/// Upright if it fits so, else lying if it fits so, else in as few parts as can be.
Template best_template(const Part& part, bool half, const paper::SheetSize& size) {
  const double width = size.width_mm - 2 * printed_margin_mm, height = size.height_mm - 2 * printed_margin_mm;
  std::vector<Template> choices;
  for (const int turn : {0, 90})
    choices.push_back(template_of(part, half, turn));
  for (Template& choice : choices)
    if (choice.box.width() <= width && choice.box.height() <= height)
      return choice;
  for (Template& choice : choices) {
    const PageBox rimmed{choice.box.left - rim_mm, choice.box.top - rim_mm, choice.box.right + rim_mm,
                         choice.box.bottom + rim_mm};
    choice.tiling = tiling_of(rimmed, width, height - heading_band_mm);
  }
  const auto pages = [](const Template& t) { return t.tiling.columns * t.tiling.rows; };
  return pages(choices[1]) < pages(choices[0]) ? choices[1] : choices[0];
}

/// Takes the room of what is drawn: areas of whole leaves, lines of parts.
void take_lines(FreeRoom& room, const std::vector<drawing::Item>& items) {
  for (const drawing::Item& item : items)
    if (const auto* path = std::get_if<drawing::Path>(&item))
      for (const std::vector<Point>& chords : chords_of(*path))
        room.take_line(chords);
}

struct Sheet {
  const design::Design& design;
  const Part& part;
  paper::SheetSize size;
  std::string title;
  std::size_t all = 0;

  MeasuredPage blank() const {
    MeasuredPage measured;
    measured.page = {size.width_mm, size.height_mm, {}};
    return measured;
  }
  bool grain_upright(const Template& t) const {
    return (t.turn_deg == 0) == (part.size->paper.grain == paper::Grain::along_spine);
  }
};

std::string what_of(const Template& t) {
  return t.half ? "half a leaf: lay the long-dashed line on the fold, cut both layers" : "one whole leaf to trace";
}

MeasuredPage on_one_page(const Sheet& sheet, const Template& t, std::size_t number) {
  MeasuredPage result = sheet.blank();
  result.shows = t.half ? "half" : "leaf";
  // Midway between heading and foot, or as low as can be when the leaf is nearly as high as the page.
  const double lowest = sheet.size.height_mm - printed_margin_mm;
  const double spare = std::max(0.0, lowest - t.box.height() - printed_margin_mm - notes_band_mm);
  const double foot = lowest - spare / 2;
  const double left = t.half ? printed_margin_mm + 2 : (sheet.size.width_mm - t.box.width()) / 2;
  const Point corner{std::min(left, sheet.size.width_mm - printed_margin_mm - t.box.width()), foot - t.box.height()};
  // The box goes by chords, which curves may pass by a little: seen through a window that is larger all round.
  const PageBox window{t.box.left - rim_mm, t.box.top - rim_mm, t.box.right + rim_mm, t.box.bottom + rim_mm};
  result.page.items = seen_through(t.items, window, {corner.x - rim_mm, corner.y - rim_mm});
  result.leaves = {Place{t.turn_deg, false, {corner.x - t.box.left, corner.y - t.box.top}}};
  FreeRoom room(sheet.size.width_mm, sheet.size.height_mm, printed_margin_mm);
  std::vector<Point> ring;
  for (const leaf::Point& p :
       t.half ? leaf::flatten(sheet.part.leaf.outline, leaf::flatten_tolerance_mm) : sheet.part.outline)
    ring.push_back(result.leaves.front()(p));
  room.take(ring);
  add_heading(result.page, room, printed_margin_mm, sheet.title,
              "page " + std::to_string(number) + " of " + std::to_string(sheet.all) + ": " + what_of(t));
  add_measures(result, room, printed_margin_mm, {0, 0}, {sheet.size.width_mm, 0});
  add_grain(result.page, room, {sheet.size.width_mm, 0}, sheet.grain_upright(t));
  return result;
}

/// One part, or nothing when its window shows no line.
void add_part(const Sheet& sheet, const Template& t, int column, int row, std::vector<MeasuredPage>& pages) {
  const PageBox window = t.tiling.window(column, row);
  const Point corner{printed_margin_mm, printed_margin_mm + heading_band_mm};
  MeasuredPage result = sheet.blank();
  result.page.items = seen_through(t.items, window, corner);
  if (result.page.items.empty())
    return;
  result.shows = t.half ? "half part" : "part";
  result.name = t.tiling.name(column, row);
  const Point moved{corner.x - window.left, corner.y - window.top};
  result.leaves = {Place{t.turn_deg, false, moved}};
  result.part = PageBox{corner.x, corner.y, corner.x + window.width(), corner.y + window.height()};
  const auto joining = seen_through(joints(t.tiling), window, corner);
  result.page.items.insert(result.page.items.end(), joining.begin(), joining.end());
  FreeRoom room(sheet.size.width_mm, sheet.size.height_mm, printed_margin_mm);
  take_lines(room, result.page.items);
  add_heading(result.page, room, printed_margin_mm, sheet.title + ": part " + result.name,
              "page " + std::to_string(pages.size() + 1) + " of " + std::to_string(sheet.all) +
                  ": print once at 100 %, " + (t.half ? "half a leaf in parts" : "one leaf in parts"));
  add_measures(result, room, printed_margin_mm, {0, 0}, {sheet.size.width_mm, 0});
  add_grain(result.page, room, {sheet.size.width_mm, 0}, sheet.grain_upright(t));
  pages.push_back(std::move(result));
}

std::size_t pages_of(const Template& t) {
  std::size_t count = 0;
  for (int row = 0; row < t.tiling.rows; ++row)
    for (int column = 0; column < t.tiling.columns; ++column)
      count += !t.parts() || !seen_through(t.items, t.tiling.window(column, row), {0, 0}).empty() ? 1 : 0;
  return count;
}

std::vector<std::string> paragraphs_of(const Part& part, const std::vector<Template>& templates) {
  std::vector<std::string> list = {"This file holds a template, not all leaves: trace it " +
                                   std::to_string(part.size->leaves) + " times onto paper of " +
                                   decimal(part.size->paper.grammage_gsm, 0) +
                                   " g/m2, its grain as the arrow shows, or cut it from card and draw round it."};
  if (std::any_of(templates.begin(), templates.end(), [](const Template& t) { return t.parts(); }))
    list.push_back("A leaf larger than the page is printed in parts that overlap by 10 mm. Cut one of two neighbours "
                   "along the dotted line in the overlap, lay it on the other so that line and numbered diamonds meet, "
                   "and tape it. The map shows which part goes where.");
  return list;
}

} // namespace

std::vector<MeasuredPage> template_pages(const design::Design& design, const Part& part, const PrintPaper& paper,
                                         TemplateShape shape) {
  std::vector<Template> templates;
  if (shape != TemplateShape::half)
    templates.push_back(best_template(part, false, paper.size));
  if (shape != TemplateShape::whole)
    templates.push_back(best_template(part, true, paper.size));
  Sheet sheet{design, part, paper.size, design.title + ", " + part.size->name, 1};
  for (const Template& t : templates)
    sheet.all += pages_of(t);
  const CheckWords words{sheet.title,
                         "page 1 of " + std::to_string(sheet.all),
                         paragraphs_of(part, templates),
                         {{Sample::cut, "cut, holes first"},
                          {Sample::score, "score, then fold this face inward"},
                          {Sample::inside_hatched, "glue inside: half to half, on this face"},
                          {Sample::between_hatched, "glue between: on the back, leaf to leaf"}}};
  CheckPage first = check_page(paper.size, words, false);
  double map_left = 15;
  for (const Template& t : templates)
    if (t.parts()) {
      constexpr double widest = 80;
      Column heading(first.measured.page, {map_left, first.free_from_mm + 3}, widest);
      heading.write(t.half ? "Map of the half leaf" : "Map of the whole leaf", 3, true);
      add_map(first.measured.page, {map_left, heading.y() + 1}, widest, t.tiling, t.items);
      map_left += widest + 8;
    }
  std::vector<MeasuredPage> pages = {std::move(first.measured)};
  for (const Template& t : templates) {
    if (!t.parts()) {
      pages.push_back(on_one_page(sheet, t, pages.size() + 1));
      continue;
    }
    for (int row = 0; row < t.tiling.rows; ++row)
      for (int column = 0; column < t.tiling.columns; ++column)
        add_part(sheet, t, column, row, pages);
  }
  return pages;
}

PrintFile master_leaf(const design::Design& design, const Part& part, const PrintPaper& paper) {
  const std::string name = paper.name;
  return {"master-leaf-" + name + ".pdf", name, "one leaf to trace, whole and as a half on a fold, on " + name,
          template_pages(design, part, paper, TemplateShape::whole_and_half)};
}

} // namespace fanwright::kit
