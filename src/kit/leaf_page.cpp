#include "kit/leaf_page.h"

#include "drawing/decimal.h"

#include <algorithm>

namespace fanwright::kit {

namespace {

using drawing::Align;
using drawing::decimal;
using drawing::Page;
using drawing::Point;
using drawing::Step;
using drawing::Text;

constexpr double edge_mm = 10;    // white all round the leaf
constexpr double heading_mm = 20; // title and sub-title
constexpr double ruler_band_mm = 14;
constexpr double key_band_mm = 22; // the key to the lines
constexpr double least_width_mm = ruler_mm + 2 * edge_mm + 30;

void add_sample(Page& page, const Point& left, Step step, double hatch_deg, const std::string& words) {
  constexpr double width = 16, half_height = 1.5;
  const double right = left.x + width;
  if (hatch_deg == 0) {
    drawing::Path line = drawing::polyline(Step::legend, {left, {right, left.y}}, false);
    line.pen = drawing::usual_pen(step);
    page.items.push_back(line);
  } else {
    const std::vector<Point> box = {{left.x, left.y - half_height},
                                    {right, left.y - half_height},
                                    {right, left.y + half_height},
                                    {left.x, left.y + half_height}};
    drawing::Path outline = drawing::polyline(Step::legend, box, true);
    outline.pen = drawing::usual_pen(step);
    page.items.push_back(outline);
    page.items.push_back(drawing::hatched(Step::legend, box, hatch_deg, 1.6));
  }
  page.items.push_back(Text{Step::legend, {right + 3, left.y + 1}, 2.8, words, Align::left, false});
}

void add_key(Page& page, const Point& left) {
  add_sample(page, left, Step::cut, 0, "cut");
  add_sample(page, {left.x, left.y + 5.5}, Step::score, 0, "score, then fold: this face inward");
  add_sample(page, {left.x, left.y + 11}, Step::glue_inside, 45, "glue inside: on this face, one half to the other");
  add_sample(page, {left.x, left.y + 16.5}, Step::glue_between, -45, "glue between: on the back, leaf to leaf");
}

void add_grain(Page& page, const Point& foot, bool upright) {
  constexpr double length = 24, head = 2.2;
  const Point tip = upright ? Point{foot.x, foot.y - length} : Point{foot.x + length, foot.y};
  page.items.push_back(drawing::polyline(Step::legend, {foot, tip}, false));
  const auto arrow = [&](const Point& at, double way) {
    const Point a = upright ? Point{at.x - head / 2, at.y + way * head} : Point{at.x - way * head, at.y - head / 2};
    const Point b = upright ? Point{at.x + head / 2, at.y + way * head} : Point{at.x - way * head, at.y + head / 2};
    page.items.push_back(drawing::polyline(Step::legend, {a, at, b}, false));
  };
  arrow(tip, 1);
  arrow(foot, -1);
  const Point label = upright ? Point{foot.x - 1, foot.y + 4} : Point{foot.x, foot.y - 2};
  page.items.push_back(Text{Step::legend, label, 2.6, "grain", Align::left, false});
}

std::string sub_title(const Part& part) {
  return "leaf " + decimal(part.width_mm, 1) + " x " + decimal(part.height_mm, 1) + " mm, cut " +
         std::to_string(part.size->leaves) + " from " + decimal(part.size->paper.grammage_gsm, 0) + " g/m2 paper";
}

} // namespace

MeasuredPage leaf_page(const design::Design& design, const Part& part) {
  MeasuredPage result;
  Page& page = result.page;
  page.width_mm = std::max(part.width_mm + 2 * edge_mm, least_width_mm);
  page.height_mm = heading_mm + part.height_mm + ruler_band_mm + key_band_mm + 2 * edge_mm;
  result.leaf_corner = {(page.width_mm - part.width_mm) / 2, heading_mm + edge_mm / 2};
  result.leaf_width_mm = part.width_mm;
  result.leaf_height_mm = part.height_mm;
  const std::string title = design.title + ", " + part.size->name;
  const double title_mm = drawing::fitted_size_mm(title, page.width_mm - 2 * edge_mm, 5.2, true);
  page.items.push_back(Text{Step::legend, {edge_mm, 10}, title_mm, title, Align::left, true});
  page.items.push_back(Text{Step::legend, {edge_mm, 15.5}, 3, sub_title(part), Align::left, false});
  const sheets::Placement placement{0, result.leaf_corner.x - part.left_mm, -part.bottom_mm};
  const double leaf_foot = result.leaf_corner.y + part.height_mm;
  add_leaf(page, part.marks, placement, leaf_foot);
  add_grain(page, {edge_mm / 2, leaf_foot - 8}, part.size->paper.grain == paper::Grain::along_spine);
  result.ruler_left = {edge_mm, leaf_foot + edge_mm};
  drawing::add_ruler(page, result.ruler_left, ruler_mm);
  add_key(page, {edge_mm, leaf_foot + edge_mm + ruler_band_mm + 2});
  return result;
}

} // namespace fanwright::kit
