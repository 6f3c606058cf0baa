// Pictures of a sketch placed side by side, as large as its box allows, and their tags lettered.
#include "booklet/sketch_easel.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <type_traits>
#include <variant>

namespace fanwright::booklet {
namespace {

constexpr double between_panels_mm = 5;
constexpr double around_mm = 0.5; // free paper at the box's edge
constexpr double tag_type_mm = 2.9;

std::vector<Easel> painted(const std::vector<Panel>& panels, double scale) {
  std::vector<Easel> easels;
  for (const Panel& panel : panels)
    panel.draw(easels.emplace_back(scale * panel.magnified));
  return easels;
}

/// What is left of the box, as a factor: 1 when the pictures just fill it.
double room_for(const std::vector<Easel>& easels, double width_mm, double height_mm) {
  double width = between_panels_mm * static_cast<double>(easels.size() - 1) + 2 * around_mm, height = 1e-3;
  for (const Easel& easel : easels)
    width += easel.extent().width(), height = std::max(height, easel.extent().height() + 2 * around_mm);
  return std::min(width_mm / width, height_mm / height);
}

/// Sizes grow a little slower than the scale, since pens and tags do not: nearing from above and below by turns ends at
/// once below.
std::vector<Easel> fitted(const std::vector<Panel>& panels, double width_mm, double height_mm) {
  double scale = 1;
  std::vector<Easel> easels = painted(panels, scale);
  for (int k = 0; k < 40; ++k) {
    const double room = room_for(easels, width_mm, height_mm);
    if (room >= 1 && (room < 1.004 || k > 12))
      break;
    scale *= room < 1 && k > 6 ? room * 0.98 : room;
    easels = painted(panels, scale);
  }
  return easels;
}

struct Moved {
  double dx = 0, dy = 0;
  drawing::Point at(drawing::Point p) const { return {p.x + dx, p.y + dy}; }

  drawing::Segment operator()(const drawing::Segment& segment) const {
    return std::visit(
        [&](auto moved) -> drawing::Segment {
          if constexpr (std::is_same_v<decltype(moved), drawing::Cubic>)
            moved.control1 = at(moved.control1), moved.control2 = at(moved.control2);
          if constexpr (!std::is_same_v<decltype(moved), drawing::Close>)
            moved.to = at(moved.to);
          return moved;
        },
        segment);
  }

  drawing::Item operator()(const drawing::Item& item) const {
    return std::visit(
        [&](auto moved) -> drawing::Item {
          using Kind = decltype(moved);
          if constexpr (std::is_same_v<Kind, drawing::Path>)
            for (auto& segment : moved.segments)
              segment = (*this)(segment);
          else if constexpr (std::is_same_v<Kind, drawing::Text>)
            moved.baseline = at(moved.baseline);
          else
            moved.corner = at(moved.corner);
          return moved;
        },
        item);
  }
};

Shape circle(drawing::Point middle, double radius) {
  constexpr int corners = 32;
  Shape ring;
  for (int k = 0; k < corners; ++k) {
    const double angle = 2 * std::numbers::pi * k / corners;
    ring.push_back({middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
  }
  return ring;
}

void letter(const Tag& tag, const Moved& moved, Sketch& sketch) {
  const auto known = std::find_if(sketch.callouts.begin(), sketch.callouts.end(),
                                  [&](const Callout& callout) { return callout.part == tag.part; });
  const std::string name = known != sketch.callouts.end()
                               ? known->tag
                               : std::string(1, static_cast<char>('A' + static_cast<int>(sketch.callouts.size())));
  const drawing::Point at = moved.at(tag.at), target = moved.at(tag.target);
  if (known == sketch.callouts.end())
    sketch.callouts.push_back({name, tag.part, at});
  Easel easel(1);
  if (std::hypot(at.x - target.x, at.y - target.y) > tag_radius_mm) {
    easel.line({at, target}, {0.5, white, {}});
    easel.line({at, target}, thin_line);
    easel.fill(circle(target, 0.4), ink);
  }
  easel.paper(circle(at, tag_radius_mm), white, thin_line);
  easel.figures(name, at, tag_type_mm, true);
  sketch.items.insert(sketch.items.end(), easel.items().begin(), easel.items().end());
}

} // namespace

Sketch side_by_side(const std::vector<Panel>& panels, double width_mm, double height_mm) {
  const std::vector<Easel> easels = fitted(panels, width_mm, height_mm);
  const auto count = static_cast<double>(easels.size());
  double widths = 0, highest = 0;
  for (const Easel& easel : easels)
    widths += easel.extent().width(), highest = std::max(highest, easel.extent().height());
  // Free width goes between the pictures and beside them in equal parts; where there is little, between them alone.
  double beside = (width_mm - widths) / (count + 1), between = beside;
  if (beside < between_panels_mm && easels.size() > 1)
    beside = around_mm, between = (width_mm - widths - 2 * around_mm) / (count - 1);
  Sketch sketch;
  sketch.width_mm = width_mm, sketch.height_mm = height_mm;
  double left = beside;
  for (std::size_t k = 0; k < easels.size(); ++k) {
    const Easel& easel = easels[k];
    const double lower = panels[k].stands ? (highest - easel.extent().height()) / 2 : 0;
    const Moved moved{left - easel.extent().left, (height_mm - easel.extent().top - easel.extent().bottom) / 2 + lower};
    for (const auto& item : easel.items())
      sketch.items.push_back(moved(item));
    for (const Tag& tag : easel.tags())
      letter(tag, moved, sketch);
    sketch.packets += easel.packets();
    left += easel.extent().width() + between;
  }
  return sketch;
}

void place(const Sketch& sketch, drawing::Point corner, drawing::Page& page) {
  const Moved moved{corner.x, corner.y};
  for (const auto& item : sketch.items)
    page.items.push_back(moved(item));
}

} // namespace fanwright::booklet
