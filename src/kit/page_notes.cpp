#include "kit/page_notes.h"

#include "drawing/words.h"
#include "kit/leaf_lines.h"

#include <algorithm>

namespace fanwright::kit {

namespace {

using drawing::Align;
using drawing::Page;
using drawing::Point;
using drawing::Step;

void add_sample_line(Page& page, const Point& left, double width, Step looks_like) {
  drawing::Path line = drawing::polyline(Step::legend, {left, {left.x + width, left.y}}, false);
  line.pen = drawing::usual_pen(looks_like);
  page.items.push_back(line);
}

/// A strip as on the leaves, but in the notes.
void add_sample_strip(Page& page, const Point& left, double width, leaf::Face face, GlueLook look) {
  constexpr double half_height = 1.5;
  leaf::Marks marks;
  marks.glue.push_back({0,
                        leaf::Half::right,
                        face,
                        {leaf::Point{0, -half_height}, {width, -half_height}, {width, half_height}, {0, half_height}}});
  Page strip;
  add_rows(strip, marks, face, {0, false, left}, look);
  for (drawing::Item& item : strip.items) {
    std::get<drawing::Path>(item).step = Step::legend;
    page.items.push_back(std::move(item));
  }
}

void add_sample(Page& page, const Point& left, double width, Sample sample) {
  switch (sample) {
  case Sample::cut:
    return add_sample_line(page, left, width, Step::cut);
  case Sample::score:
    return add_sample_line(page, left, width, Step::score);
  case Sample::reverse_score:
    return add_sample_line(page, left, width, Step::reverse_score);
  case Sample::inside_framed:
    return add_sample_strip(page, left, width, leaf::Face::inner, GlueLook::framed);
  case Sample::between_framed:
    return add_sample_strip(page, left, width, leaf::Face::outer, GlueLook::framed);
  case Sample::inside_hatched:
    return add_sample_strip(page, left, width, leaf::Face::inner, GlueLook::hatched);
  case Sample::between_hatched:
    return add_sample_strip(page, left, width, leaf::Face::outer, GlueLook::hatched);
  case Sample::between_corners:
    return add_sample_strip(page, left, width, leaf::Face::outer, GlueLook::corners);
  }
}

} // namespace

Column::Column(Page& page, const Point& top_left, double width_mm)
    : page_(page), left_(top_left.x), y_(top_left.y), width_(width_mm) {}

void Column::write(const std::string& paragraph, double size_mm, bool bold) {
  constexpr double line_share = 1.35, baseline_share = 1.0;
  for (const std::string& line : drawing::broken_into_lines(paragraph, width_, size_mm, bold)) {
    page_.items.push_back(
        drawing::Text{Step::legend, {left_, y_ + baseline_share * size_mm}, size_mm, line, Align::left, bold, {}});
    y_ += line_share * size_mm;
  }
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

void add_heading(Page& page, FreeRoom& room, double margin_mm, const std::string& title, const std::string& words) {
  constexpr double width = 104, height = 8.5, title_mm = 3.4, words_mm = 2.3;
  if (const auto corner = room.find(width, height, {margin_mm, margin_mm})) {
    room.take_note(*corner, width, height);
    const double title_size = drawing::fitted_size_mm(title, width, title_mm, true);
    const double words_size = drawing::fitted_size_mm(words, width, words_mm, false);
    page.items.push_back(drawing::Text{
        drawing::Step::legend, {corner->x, corner->y + 3.5}, title_size, title, drawing::Align::left, true, {}});
    page.items.push_back(drawing::Text{
        drawing::Step::legend, {corner->x, corner->y + 7.2}, words_size, words, drawing::Align::left, false, {}});
    return;
  }
  const std::string all = title + ": " + words;
  const double size = drawing::fitted_size_mm(all, page.width_mm - 2 * margin_mm, std::min(2.3, margin_mm / 2), false);
  page.items.push_back(drawing::Text{
      drawing::Step::legend, {margin_mm, margin_mm - 0.3 * size - 0.3}, size, all, drawing::Align::left, false, {}});
}

void add_key(Page& page, const Point& left, const std::vector<KeyLine>& lines) {
  constexpr double sample_mm = 16, gap_mm = 3, size_mm = 2.6;
  Point at = left;
  for (const KeyLine& line : lines) {
    add_sample(page, at, sample_mm, line.sample);
    page.items.push_back(drawing::Text{
        Step::legend, {at.x + sample_mm + gap_mm, at.y + 0.9}, size_mm, line.words, Align::left, false, {}});
    at.y += key_line_mm;
  }
}

void add_grain(Page& page, const Point& corner, bool upright) {
  constexpr double length = 22, head = 2.2;
  const Point foot =
      upright ? Point{corner.x + grain_width_mm / 2, corner.y + length} : Point{corner.x + 3, corner.y + 3};
  const Point tip = upright ? Point{foot.x, foot.y - length} : Point{foot.x + length, foot.y};
  page.items.push_back(drawing::polyline(Step::legend, {foot, tip}, false));
  const auto arrow = [&](const Point& at, double way) {
    const Point a = upright ? Point{at.x - head / 2, at.y + way * head} : Point{at.x - way * head, at.y - head / 2};
    const Point b = upright ? Point{at.x + head / 2, at.y + way * head} : Point{at.x - way * head, at.y + head / 2};
    page.items.push_back(drawing::polyline(Step::legend, {a, at, b}, false));
  };
  arrow(tip, 1);
  arrow(foot, -1);
  const Point label = upright ? Point{foot.x, foot.y + 3.6} : Point{foot.x + length / 2, foot.y + 4};
  page.items.push_back(drawing::Text{Step::legend, label, 2.6, "grain", Align::centre, false, {}});
}

void add_grain(Page& page, FreeRoom& room, const Point& wish, bool upright) {
  const double width = upright ? grain_width_mm : grain_height_mm, height = upright ? grain_height_mm : grain_width_mm;
  if (const auto corner = room.find(width, height, wish)) {
    room.take_note(*corner, width, height);
    add_grain(page, *corner, upright);
  }
}

} // namespace fanwright::kit
