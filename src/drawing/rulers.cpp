// Measures by which a maker sees whether a page was printed at its true size.
#include "drawing/drawing.h"

#include "drawing/decimal.h"
#include "drawing/words.h"

#include <algorithm>
#include <array>
#include <string>

namespace fanwright::drawing {

namespace {

constexpr double mm_per_inch = 25.4; // exact: international yard and pound agreement, 1959
constexpr double figure_mm = 2.2, advice_mm = 2.4;

void add_tick(Path& ticks, const Point& at, double length_mm) {
  ticks.segments.push_back(Move{at});
  ticks.segments.push_back(Line{{at.x, at.y + length_mm}});
}

} // namespace

void add_ruler(Page& page, const Point& left, double length_mm) {
  page.items.push_back(polyline(Step::dimension, {left, {left.x + length_mm, left.y}}, false));
  Path ticks{Step::dimension, {}, {hairline_mm, {}, false, {}}};
  const int count = static_cast<int>(std::min(length_mm, 2000.0) + 1e-9);
  for (int mm = 0; mm <= count; ++mm) {
    const double tick = mm % 10 == 0 ? 3.0 : mm % 5 == 0 ? 2.2 : 1.4;
    add_tick(ticks, {left.x + mm, left.y}, tick);
    if (mm % 10 == 0)
      page.items.push_back(
          Text{Step::dimension, {left.x + mm, left.y + 5.4}, figure_mm, std::to_string(mm), Align::centre, false, {}});
  }
  page.items.push_back(ticks);
  page.items.push_back(Text{Step::dimension,
                            {left.x, left.y + 8.8},
                            advice_mm,
                            "This line is " + decimal(length_mm, 1) + " mm long: measure it before you cut.",
                            Align::left,
                            false,
                            {}});
}

void add_inch_ruler(Page& page, const Point& left, int inches) {
  constexpr int parts = 8;
  constexpr std::array<double, parts> tick_mm = {3.0, 1.2, 1.7, 1.2, 2.2, 1.2, 1.7, 1.2};
  const int count = std::clamp(inches, 1, 100);
  page.items.push_back(polyline(Step::dimension, {left, {left.x + count * mm_per_inch, left.y}}, false));
  Path ticks{Step::dimension, {}, {hairline_mm, {}, false, {}}};
  for (int part = 0; part <= parts * count; ++part) {
    const double x = left.x + part * (mm_per_inch / parts);
    add_tick(ticks, {x, left.y}, -tick_mm.at(part % parts));
    if (part % parts == 0)
      page.items.push_back(Text{Step::dimension,
                                {x, left.y - 3.6},
                                figure_mm,
                                std::to_string(part / parts) + (part == parts * count ? " in" : ""),
                                Align::centre,
                                false,
                                {}});
  }
  page.items.push_back(ticks);
}

void add_square(Page& page, const Point& corner, double side_mm) {
  const double right = corner.x + side_mm, low = corner.y + side_mm, centre = corner.x + side_mm / 2;
  page.items.push_back(polyline(Step::dimension, {corner, {right, corner.y}, {right, low}, {corner.x, low}}, true));
  const std::array<std::string, 2> lines = {decimal(side_mm, 1) + " \u00d7 " + decimal(side_mm, 1) + " mm",
                                            "Measure it both ways."};
  constexpr std::array<double, 2> largest_mm = {4.0, advice_mm};
  double baseline = corner.y + side_mm / 2;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double at_one = words_width_mm(lines.at(i), 1);
    const double size = at_one > 0 ? std::min(largest_mm.at(i), 0.9 * side_mm / at_one) : largest_mm.at(i);
    page.items.push_back(Text{Step::dimension, {centre, baseline}, size, lines.at(i), Align::centre, false, {}});
    baseline += 1.2 * largest_mm[0] * std::min(1.0, side_mm / 20);
  }
}

} // namespace fanwright::drawing
