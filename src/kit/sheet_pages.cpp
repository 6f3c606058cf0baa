#include "kit/leaf_page.h"

#include "drawing/decimal.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fanwright::kit {

namespace {

using drawing::Align;
using drawing::decimal;
using drawing::Page;
using drawing::Point;
using drawing::Step;
using drawing::Text;

constexpr double least_printed_edge_mm = 4; // printers leave out 3 to 4 mm (common practice, no source)
constexpr double name_size_mm = 2.2;
constexpr double letter_share = 0.62; // mean width of a letter of the built-in font, as a share of its size

std::string copies_of(const sheets::Layout& layout) {
  return layout.sheets == 1 ? "print 1 copy" : "print " + std::to_string(layout.sheets) + " copies";
}

std::string leaves_on(const sheets::Layout& layout) {
  const std::size_t count = layout.placements.size();
  return std::to_string(count) + (count == 1 ? " leaf" : " leaves");
}

/// Name and number of the page, copies, and how to print.
std::string page_notes(const Part& part, std::size_t index) {
  const sheets::Layout& layout = part.plan.layouts[index];
  return "page " + std::to_string(index + 1) + " of " + std::to_string(part.plan.layouts.size()) + ": " +
         copies_of(layout) + " at 100 % (no scaling), " + leaves_on(layout) + " each";
}

/// The usual ruler, or what of it a small sheet can hold, in whole centimetres.
double ruler_length(const Page& page, double left) {
  return std::clamp(std::floor((page.width_mm - 2 * left) / 10) * 10, 10.0, ruler_mm);
}

/// The key to the lines in words, right of the ruler, where the sheet is wide enough.
void add_key(Page& page, const Point& top_left) {
  constexpr double size = 2.3, line = 3.5, widest = 76;
  if (top_left.x + widest > page.width_mm)
    return;
  double y = top_left.y;
  for (const char* words : {"solid line: cut", "long dashes: score, then fold this face inward",
                            "solid frame: glue inside, on this face", "dashed frame: glue between, on the back"}) {
    page.items.push_back(Text{Step::legend, {top_left.x, y}, size, words, Align::left, false});
    y += line;
  }
}

/// Notes and ruler in the free strip along the top.
void add_band(MeasuredPage& result, const design::Design& design, const Part& part, std::size_t index) {
  Page& page = result.page;
  const double edge = std::max(part.size->sheet.margin_mm, least_printed_edge_mm);
  result.ruler_length_mm = ruler_length(page, edge);
  const std::string title = design.title + ", " + part.size->name;
  const std::string notes = page_notes(part, index) + ", " + decimal(part.size->paper.grammage_gsm, 0) + " g/m2";
  // Both lines end with the ruler, so that the key to its right stays free.
  const double title_mm = drawing::fitted_size_mm(title, result.ruler_length_mm, 3.4, true);
  const double notes_mm = drawing::fitted_size_mm(notes, result.ruler_length_mm, 2.3, false);
  page.items.push_back(Text{Step::legend, {edge, edge + 3}, title_mm, title, Align::left, true});
  page.items.push_back(Text{Step::legend, {edge, edge + 6.6}, notes_mm, notes, Align::left, false});
  result.ruler_left = {edge, edge + 8.2};
  drawing::add_ruler(page, result.ruler_left, result.ruler_length_mm);
  add_key(page, {result.ruler_left.x + result.ruler_length_mm + 10, edge + 3});
}

/// Where leaves fill the sheet: a slim ruler in the bottom margin, notes in the top margin.
void add_in_margin(MeasuredPage& result, const design::Design& design, const Part& part, std::size_t index) {
  Page& page = result.page;
  const double margin = part.size->sheet.margin_mm;
  const double length = ruler_length(page, margin);
  const Point ruler{margin, page.height_mm - margin + 1.4};
  page.items.push_back(drawing::polyline(Step::dimension, {ruler, {ruler.x + length, ruler.y}}, false));
  for (int mm = 0; mm <= static_cast<int>(length); mm += 10)
    page.items.push_back(drawing::polyline(
        Step::dimension, {{ruler.x + mm, ruler.y}, {ruler.x + mm, ruler.y + (mm % 50 == 0 ? 1.8 : 1.3)}}, false));
  page.items.push_back(Text{Step::dimension,
                            {ruler.x + length + 2, ruler.y + 1.6},
                            2.2,
                            decimal(length, 0) + " mm: measure before you cut",
                            Align::left,
                            false});
  const std::string notes = design.title + ", " + part.size->name + ", " + page_notes(part, index);
  const double notes_mm = drawing::fitted_size_mm(notes, page.width_mm - 2 * margin, 2.4, false);
  page.items.push_back(Text{Step::legend, {margin, margin - 1.6}, notes_mm, notes, Align::left, false});
  result.ruler_left = ruler;
  result.ruler_length_mm = length;
}

struct Box {
  double left, bottom, right, top; ///< leaf coordinates, mm
};

bool apart(const Box& a, const Box& b) {
  return a.right < b.left || b.right < a.left || a.top < b.bottom || b.top < a.bottom;
}

template <typename Points> Box box_of(const Points& points) {
  Box box{points[0].x, points[0].z, points[0].x, points[0].z};
  for (const leaf::Point& p : points)
    box = {std::min(box.left, p.x), std::min(box.bottom, p.z), std::max(box.right, p.x), std::max(box.top, p.z)};
  return box;
}

/// Centre of the name on the left half: just above the longest row where it meets no cut-out and no other row.
std::optional<leaf::Point> name_place(const Part& part, const std::string& name) {
  std::vector<Box> taken;
  for (const leaf::Contour& cut_out : part.marks.cut_outs)
    taken.push_back(box_of(leaf::flatten(cut_out, leaf::flatten_tolerance_mm)));
  for (const leaf::GlueMark& mark : part.marks.glue)
    taken.push_back(box_of(mark.corners));
  const double width = name_size_mm * letter_share * static_cast<double>(name.size());
  std::optional<leaf::Point> best;
  double longest = width;
  for (const leaf::GlueRow& row : part.leaf.rows) {
    const double middle = (row.from.x + row.to.x) / 2, foot = std::max(row.from.z, row.to.z) + row.width_mm / 2 + 0.4;
    const Box box{-middle - width / 2, foot, -middle + width / 2, foot + name_size_mm};
    const bool free = std::all_of(taken.begin(), taken.end(), [&](const Box& other) { return apart(box, other); });
    if (free && row.to.x - row.from.x > longest) {
      longest = row.to.x - row.from.x;
      best = leaf::Point{-middle, foot + name_size_mm / 2};
    }
  }
  return best;
}

/// Names stand upright on the page, on leaves that do too (or on their head).
void add_name(Page& page, const std::string& name, const leaf::Point& centre, const sheets::Placement& placement) {
  constexpr double half_letter = 0.36; // of its size, for the letters of the built-in font
  if (placement.turn_deg % 180 != 0)
    return;
  const leaf::Point at = sheets::placed(placement, centre);
  const Point baseline{at.x, page.height_mm - at.z + half_letter * name_size_mm};
  page.items.push_back(Text{Step::legend, baseline, name_size_mm, name, Align::centre, false});
}

void measure_first_leaf(MeasuredPage& result, const Part& part, const sheets::Placement& placement) {
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const leaf::Point& point : part.outline) {
    const leaf::Point p = sheets::placed(placement, point);
    const double y = part.size->sheet.size.height_mm - p.z;
    left = std::min(left, p.x), right = std::max(right, p.x);
    top = std::min(top, y), bottom = std::max(bottom, y);
  }
  result.leaf_corner = {left, top};
  result.leaf_width_mm = right - left;
  result.leaf_height_mm = bottom - top;
}

} // namespace

std::vector<MeasuredPage> sheet_pages(const design::Design& design, const Part& part) {
  std::vector<MeasuredPage> pages;
  const std::string name = part.size->name + " leaf";
  const auto centre = name_place(part, name);
  for (std::size_t i = 0; i < part.plan.layouts.size(); ++i) {
    MeasuredPage result;
    Page& page = result.page;
    page.width_mm = part.size->sheet.size.width_mm;
    page.height_mm = part.size->sheet.size.height_mm;
    if (part.notes_band_mm > 0)
      add_band(result, design, part, i);
    else
      add_in_margin(result, design, part, i);
    for (const sheets::Placement& placement : part.plan.layouts[i].placements) {
      add_leaf(page, part.marks, placement, page.height_mm);
      if (centre)
        add_name(page, name, *centre, placement);
    }
    measure_first_leaf(result, part, part.plan.layouts[i].placements.front());
    pages.push_back(std::move(result));
  }
  return pages;
}

} // namespace fanwright::kit
