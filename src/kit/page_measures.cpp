#include "kit/page_measures.h"

#include "drawing/decimal.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace fanwright::kit {

namespace {

using drawing::Page;
using drawing::Point;
using drawing::Step;

constexpr double mm_per_inch = 25.4;
constexpr drawing::Pen fine = {0.13, {}, false, {}}; // ISO 128-2: the thinnest line of the series
constexpr double slim_gap_mm = 0.3;                  // between the slim scales and the leaves' margin

void add_words(Page& page, const Point& at, double size, const std::string& words) {
  page.items.push_back(drawing::Text{Step::dimension, at, size, words, drawing::Align::left, false, {}});
}

Point along(const Scale& scale, double mm) {
  return scale.upright ? Point{scale.zero.x, scale.zero.y - mm} : Point{scale.zero.x + mm, scale.zero.y};
}

void add_line(Page& page, const Scale& scale) {
  page.items.push_back(drawing::polyline(Step::dimension, {scale.zero, along(scale, scale.length_mm)}, false));
}

/// Ticks at every `step_mm`; those of each coarser step are longer. Positive lengths point down or right.
struct Ticks {
  double step_mm, middle_mm, great_mm;
  double least, middle, great; ///< lengths
};

void add_ticks(Page& page, const Scale& scale, const Ticks& ticks) {
  drawing::Path path{Step::dimension, {}, fine};
  const int count = static_cast<int>(std::floor(scale.length_mm / ticks.step_mm + 1e-6));
  const int middles = static_cast<int>(std::lround(ticks.middle_mm / ticks.step_mm));
  const int greats = static_cast<int>(std::lround(ticks.great_mm / ticks.step_mm));
  for (int i = 0; i <= count; ++i) {
    const double out = i % greats == 0 ? ticks.great : i % middles == 0 ? ticks.middle : ticks.least;
    const Point foot = along(scale, i * ticks.step_mm);
    path.segments.push_back(drawing::Move{foot});
    path.segments.push_back(drawing::Line{scale.upright ? Point{foot.x + out, foot.y} : Point{foot.x, foot.y + out}});
  }
  page.items.push_back(path);
}

/// Where scales run in a margin, just beyond the leaves, and the words that explain them.
struct Margin {
  double corner_mm;  ///< from either edge of the page to the corner of the scales
  std::string words; ///< gathered here
};

double whole_steps(double room, double step, double most) {
  return std::min(most, std::floor(room / step + 1e-9) * step);
}

void add_slim_foot(MeasuredPage& measured, Margin& margin, double most_mm) {
  Page& page = measured.page;
  const Scale foot{{margin.corner_mm, page.height_mm - margin.corner_mm},
                   whole_steps(page.width_mm - 2 * margin.corner_mm, 10, most_mm),
                   false};
  add_line(page, foot);
  add_ticks(page, foot, {5, 10, 50, 0.8, 1.3, 1.8});
  margin.words += "along the foot " + drawing::decimal(foot.length_mm, 0) + " mm";
  measured.foot = foot;
}

void add_slim_left(MeasuredPage& measured, Margin& margin, double most_mm) {
  Page& page = measured.page;
  const Scale left{{margin.corner_mm, page.height_mm - margin.corner_mm},
                   whole_steps(page.height_mm - 2 * margin.corner_mm, 10, most_mm),
                   true};
  add_line(page, left);
  add_ticks(page, left, {5, 10, 50, -0.8, -1.3, -1.8});
  margin.words += ", left side " + drawing::decimal(left.length_mm, 0) + " mm, across the corner from 50 to 50 70.7 mm";
  measured.left_side = left;
}

void add_slim_right(MeasuredPage& measured, Margin& margin) {
  Page& page = measured.page;
  const Scale right{{page.width_mm - margin.corner_mm, page.height_mm - margin.corner_mm},
                    whole_steps(page.height_mm - 2 * margin.corner_mm, mm_per_inch, inches_mm),
                    true};
  add_line(page, right);
  add_ticks(page, right, {mm_per_inch / 4, mm_per_inch / 2, mm_per_inch, 0.8, 1.3, 1.8});
  margin.words += ", right side " + drawing::decimal(right.length_mm / mm_per_inch, 0) + " in";
  measured.inches = right;
}

void add_margin_words(Page& page, const Scale& foot, const Margin& margin) {
  const double from = foot.zero.x + foot.length_mm + 2;
  const double size = drawing::fitted_size_mm(margin.words, page.width_mm - margin.corner_mm - 3 - from, 1.9, false);
  add_words(page, {from, foot.zero.y + 1.7}, size, margin.words);
}

void add_cross(Page& page, const Point& centre) {
  constexpr double arm = 2.5;
  for (const Point& half : {Point{arm, 0}, Point{0, arm}}) {
    drawing::Path line = drawing::polyline(
        Step::legend, {{centre.x - half.x, centre.y - half.y}, {centre.x + half.x, centre.y + half.y}}, false);
    line.pen = fine;
    page.items.push_back(line);
  }
}

} // namespace

void add_double_scale(MeasuredPage& measured, const Point& corner) {
  constexpr double inches_room = 5.5; // above the inch scale's line: drawing::add_inch_ruler
  const Scale inch{{corner.x + 2, corner.y + inches_room}, inches_mm, false};
  const Scale metric{{inch.zero.x, inch.zero.y + 1}, millimetres_mm, false};
  drawing::add_inch_ruler(measured.page, inch.zero, 4);
  drawing::add_ruler(measured.page, metric.zero, millimetres_mm);
  measured.millimetres = metric;
  measured.inches = inch;
}

void add_square(MeasuredPage& measured, const Point& corner) {
  drawing::add_square(measured.page, corner, square_mm);
  measured.square = corner;
}

void add_measures(MeasuredPage& measured, FreeRoom& room, double margin_mm, const Point& scale_wish,
                  const Point& square_wish) {
  const auto scale = room.find(double_scale_width_mm, double_scale_height_mm, scale_wish);
  if (scale) {
    room.take_note(*scale, double_scale_width_mm, double_scale_height_mm);
    add_double_scale(measured, *scale);
  }
  const auto square = room.find(square_mm, square_mm, square_wish);
  if (square) {
    room.take_note(*square, square_mm, square_mm);
    add_square(measured, *square);
  }
  if (scale && square)
    return;
  Margin margin{margin_mm - slim_gap_mm, {}};
  add_slim_foot(measured, margin, scale ? square_mm : millimetres_mm);
  if (!square)
    add_slim_left(measured, margin, scale ? square_mm : millimetres_mm);
  if (!scale) {
    measured.millimetres = measured.foot;
    add_slim_right(measured, margin);
  }
  add_margin_words(measured.page, *measured.foot, margin);
}

void add_crosses(Page& page, const std::vector<Point>& centres) {
  for (const Point& centre : centres)
    add_cross(page, centre);
}

void add_meeting_crosses(Page& front, Page& back, FreeRoom& front_room, FreeRoom& back_room) {
  constexpr double side = 6;
  const double width = front.width_mm, height = front.height_mm;
  FreeRoom both = front_room;
  both.take_mirrored(back_room);
  for (const Point& wish : {Point{0, 0}, Point{width, 0}, Point{0, height}, Point{width, height}})
    if (const auto corner = both.find(side, side, wish)) {
      const PageBox box{corner->x, corner->y, corner->x + side, corner->y + side};
      both.take(box);
      front_room.take(box);
      back_room.take({width - box.right, box.top, width - box.left, box.bottom});
      const Point centre{corner->x + side / 2, corner->y + side / 2};
      add_cross(front, centre);
      add_cross(back, {width - centre.x, centre.y});
    }
}

} // namespace fanwright::kit
