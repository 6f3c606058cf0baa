#include "kit/tiles.h"

#include "kit/window.h"

#include <algorithm>
#include <cmath>

namespace fanwright::kit {

namespace {

using drawing::Point;
using drawing::Step;

constexpr double half_diamond_mm = 2.2;
constexpr drawing::Pen joint_pen = {0.13, {}, false, {}};

drawing::Text word(const Point& middle, double size, const std::string& words) {
  return {Step::legend, {middle.x, middle.y + 0.36 * size}, size, words, drawing::Align::centre, false, {}};
}

drawing::Path diamond(const Point& at) {
  return drawing::polyline(Step::legend,
                           {{at.x, at.y - half_diamond_mm},
                            {at.x + half_diamond_mm, at.y},
                            {at.x, at.y + half_diamond_mm},
                            {at.x - half_diamond_mm, at.y}},
                           true);
}

/// Joint of one window with the next: a line, and diamonds near both its ends, where the leaf is rarely in their way.
void add_joint(std::vector<drawing::Item>& items, const Point& from, const Point& to, int& number) {
  drawing::Path line = drawing::polyline(Step::legend, {from, to}, false);
  line.pen = joint_pen;
  line.pen.dash_mm = {0.5, 1.5};
  items.push_back(line);
  const bool upright = from.x == to.x;
  for (const double share : {0.1, 0.9}) {
    const Point at{from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
    items.push_back(diamond(at));
    const double aside = half_diamond_mm + 1.8;
    items.push_back(
        word(upright ? Point{at.x, at.y - aside} : Point{at.x - aside, at.y}, 2.4, std::to_string(number++)));
  }
}

} // namespace

PageBox Tiling::window(int column, int row) const {
  const double left = left_mm + column * (width_mm - overlap_mm), top = top_mm + row * (height_mm - overlap_mm);
  return {left, top, left + width_mm, top + height_mm};
}

std::string Tiling::name(int column, int row) const {
  // Leaves are at most 2 m and pages at least 100 mm wide: twenty-six letters are enough.
  return std::string(1, static_cast<char>('A' + std::min(column, 25))) + std::to_string(row + 1);
}

Tiling tiling_of(const PageBox& box, double width_mm, double height_mm) {
  const auto needed = [](double length, double window) {
    return std::max(1, static_cast<int>(std::ceil((length - overlap_mm) / (window - overlap_mm) - 1e-9)));
  };
  Tiling tiling{needed(box.width(), width_mm), needed(box.height(), height_mm), width_mm, height_mm, 0, 0};
  const double all_width = tiling.columns * (width_mm - overlap_mm) + overlap_mm;
  const double all_height = tiling.rows * (height_mm - overlap_mm) + overlap_mm;
  tiling.left_mm = box.left - (all_width - box.width()) / 2;
  tiling.top_mm = box.top - (all_height - box.height()) / 2;
  return tiling;
}

std::vector<drawing::Item> joints(const Tiling& tiling) {
  std::vector<drawing::Item> items;
  int number = 1;
  for (int row = 0; row < tiling.rows; ++row)
    for (int column = 0; column < tiling.columns; ++column) {
      const PageBox window = tiling.window(column, row);
      const double right = window.right - overlap_mm / 2, bottom = window.bottom - overlap_mm / 2;
      if (column + 1 < tiling.columns)
        add_joint(items, {right, window.top}, {right, window.bottom}, number);
      if (row + 1 < tiling.rows)
        add_joint(items, {window.left, bottom}, {window.right, bottom}, number);
    }
  return items;
}

void add_map(drawing::Page& page, const Point& corner, double width_mm, const Tiling& tiling,
             const std::vector<drawing::Item>& items) {
  const PageBox first = tiling.window(0, 0), last = tiling.window(tiling.columns - 1, tiling.rows - 1);
  const double scale = std::min(width_mm / (last.right - first.left), 60 / (last.bottom - first.top));
  const auto on_map = [&](const Point& p) {
    return Point{corner.x + (p.x - first.left) * scale, corner.y + (p.y - first.top) * scale};
  };
  const auto add_line = [&](std::vector<Point> points, bool closed) {
    std::transform(points.begin(), points.end(), points.begin(), on_map);
    page.items.push_back(drawing::polyline(Step::legend, points, closed));
  };
  for (const drawing::Item& item : items)
    if (const auto* path = std::get_if<drawing::Path>(&item); path != nullptr && path->step == Step::cut)
      for (const std::vector<Point>& chords : chords_of(*path))
        add_line(chords, false);
  for (int row = 0; row < tiling.rows; ++row)
    for (int column = 0; column < tiling.columns; ++column) {
      const PageBox w = tiling.window(column, row);
      const double half = overlap_mm / 2;
      const double left = column > 0 ? w.left + half : w.left, top = row > 0 ? w.top + half : w.top;
      const double right = column + 1 < tiling.columns ? w.right - half : w.right;
      const double bottom = row + 1 < tiling.rows ? w.bottom - half : w.bottom;
      add_line({{left, top}, {right, top}, {right, bottom}, {left, bottom}}, true);
      page.items.push_back(word(on_map({(left + right) / 2, (top + bottom) / 2}), 4, tiling.name(column, row)));
    }
}

} // namespace fanwright::kit
