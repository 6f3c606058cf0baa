#include "booklet/sketch_easel.h"

#include "picture/straightened.h"

#include <algorithm>
#include <cmath>
#include <variant>

namespace fanwright::booklet {
namespace {

constexpr double straight_mm = 0.04; // a quarter of the thinnest pen
constexpr double head_length_mm = 2.3, head_half_mm = 0.85;
constexpr double hatch_mm = 0.7;
constexpr double inner_pen_mm = 0.12, outer_pen_mm = 0.3; // of line drawings, made small
constexpr double shortest_stretch_mm = 0.12;              // shorter ones would print as dots

Shape straightened(const Shape& shape) {
  std::vector<leaf::Point> chain;
  for (const auto& point : shape)
    chain.push_back({point.x, point.y});
  Shape result;
  for (const auto& point : picture::straightened(chain, straight_mm))
    result.push_back({point.x, point.z});
  return result;
}

void append(const Shape& shape, bool closed, std::vector<drawing::Segment>& segments) {
  Shape chain = shape;
  if (closed)
    chain.push_back(shape.front());
  chain = straightened(chain);
  if (closed && chain.size() > 2)
    chain.pop_back();
  for (std::size_t k = 0; k < chain.size(); ++k)
    if (k == 0)
      segments.emplace_back(drawing::Move{chain[k]});
    else
      segments.emplace_back(drawing::Line{chain[k]});
  if (closed)
    segments.emplace_back(drawing::Close{});
}

double length_of(const Shape& shape) {
  double sum = 0;
  for (std::size_t k = 0; k + 1 < shape.size(); ++k)
    sum += std::hypot(shape[k + 1].x - shape[k].x, shape[k + 1].y - shape[k].y);
  return sum;
}

} // namespace

std::vector<Shape> stretches_of(const drawing::Path& path) {
  std::vector<Shape> stretches;
  for (const auto& segment : path.segments)
    if (const auto* move = std::get_if<drawing::Move>(&segment))
      stretches.push_back({move->to});
    else if (const auto* line = std::get_if<drawing::Line>(&segment); line && !stretches.empty())
      stretches.back().push_back(line->to);
  return stretches;
}

void Extent::take(drawing::Point point, double around_mm) {
  left = std::min(left, point.x - around_mm), right = std::max(right, point.x + around_mm);
  top = std::min(top, point.y - around_mm), bottom = std::max(bottom, point.y + around_mm);
}

void Easel::add(const std::vector<Shape>& shapes, bool closed, const drawing::Pen& pen) {
  drawing::Path path{drawing::Step::print, {}, pen};
  for (const Shape& shape : shapes) {
    if (shape.size() < 2)
      continue;
    Shape placed;
    for (const auto& point : shape) {
      placed.push_back(on_page(point));
      extent_.take(placed.back(), pen.filled ? 0 : pen.width_mm / 2);
    }
    append(placed, closed, path.segments);
  }
  if (!path.segments.empty())
    items_.emplace_back(std::move(path));
}

void Easel::fill(const Shape& shape, drawing::Colour colour) { add({shape}, true, {0, {}, true, colour}); }

void Easel::fill(const std::vector<Shape>& rings, drawing::Colour colour) { add(rings, true, {0, {}, true, colour}); }

void Easel::line(const Shape& shape, const Stroke& stroke, bool closed) {
  add({shape}, closed, {stroke.width_mm, stroke.dash_mm, false, stroke.colour});
}

void Easel::paper(const Shape& ring, drawing::Colour colour, const Stroke& stroke) {
  paper(std::vector<Shape>{ring}, colour, stroke);
}

void Easel::paper(const std::vector<Shape>& rings, drawing::Colour colour, const Stroke& stroke) {
  fill(rings, colour);
  add(rings, true, {stroke.width_mm, stroke.dash_mm, false, stroke.colour});
}

void Easel::glue(const Shape& convex) {
  fill(convex, accent_tint);
  Shape placed;
  for (const auto& point : convex)
    placed.push_back(on_page(point));
  drawing::Path lines = drawing::hatched(drawing::Step::print, placed, 60, hatch_mm);
  lines.pen = {0.13, {}, false, accent};
  if (!lines.segments.empty())
    items_.emplace_back(std::move(lines));
  line(convex, {thin_mm, accent, {}}, true);
}

void Easel::head(drawing::Point tip, drawing::Point from) {
  const double dx = tip.x - from.x, dy = tip.y - from.y, length = std::hypot(dx, dy);
  if (!(length > 0))
    return;
  const double ux = dx / length, uy = dy / length, back = head_length_mm / scale_, half = head_half_mm / scale_;
  fill({tip,
        {tip.x - ux * back - uy * half, tip.y - uy * back + ux * half},
        {tip.x - ux * back * 0.8, tip.y - uy * back * 0.8},
        {tip.x - ux * back + uy * half, tip.y - uy * back - ux * half}},
       accent);
}

void Easel::arrow(const Shape& along, bool both_ends) {
  if (along.size() < 2)
    return;
  // The head looks along the last stretch of its own length; the line stops inside it.
  const auto shortened = [&](Shape shape) {
    const drawing::Point tip = shape.back();
    const auto away = [&](drawing::Point p) { return std::hypot(p.x - tip.x, p.y - tip.y) * scale_; };
    shape.pop_back();
    while (shape.size() > 1 && away(shape.back()) < head_length_mm)
      shape.pop_back();
    const drawing::Point from = shape.back();
    head(tip, from);
    const double share = std::min(1.0, 0.7 * head_length_mm / std::max(away(from), 1e-9));
    shape.push_back({tip.x + (from.x - tip.x) * share, tip.y + (from.y - tip.y) * share});
    return shape;
  };
  Shape shape = shortened(along);
  if (both_ends) {
    std::reverse(shape.begin(), shape.end());
    shape = shortened(shape);
  }
  line(shape, {bold_mm, accent, {}});
}

void Easel::tag(Part part, drawing::Point target, double dx_mm, double dy_mm) {
  const auto at = on_page(target);
  tags_.push_back({part, {at.x + dx_mm, at.y + dy_mm}, at});
  extent_.take(tags_.back().at, tag_radius_mm + thin_mm);
  extent_.take(at, thin_mm);
}

void Easel::figures(const std::string& words, drawing::Point at, double size_mm, bool bold) {
  const auto middle = on_page(at);
  const double half_width = 0.36 * size_mm * static_cast<double>(words.size());
  drawing::Text text{
      drawing::Step::print, {middle.x, middle.y + 0.36 * size_mm}, size_mm, words, drawing::Align::centre, bold, ink};
  for (const double side : {-1.0, 1.0})
    extent_.take({middle.x + side * half_width, middle.y + side * 0.5 * size_mm}, 0);
  items_.emplace_back(std::move(text));
}

void Easel::drawn(const drawing::Page& page, drawing::Point corner, double magnified) {
  for (const auto& item : page.items) {
    const auto* path = std::get_if<drawing::Path>(&item);
    if (!path)
      continue;
    std::vector<Shape> shapes;
    for (Shape& shape : stretches_of(*path)) {
      for (auto& point : shape)
        point = {corner.x + point.x * magnified, corner.y + point.y * magnified};
      if (length_of(shape) * scale_ > shortest_stretch_mm)
        shapes.push_back(std::move(shape));
    }
    add(shapes, false, {path->pen.width_mm < main_mm ? inner_pen_mm : outer_pen_mm, {}, false, ink});
  }
}

} // namespace fanwright::booklet
