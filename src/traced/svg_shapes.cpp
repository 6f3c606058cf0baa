#include "traced/svg_shapes.h"

#include "leaf/arc.h"
#include "leaf/contour.h"
#include "traced/svg_style.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace fanwright::traced {
namespace {

using leaf::Point;
using leaf::Subpath;
using Subpaths = std::vector<Subpath>;

double diagonal(const Viewport& v) { return std::hypot(v.width, v.height) / std::numbers::sqrt2; }

Subpath polygon_of(const std::vector<Point>& points, bool closed) {
  Subpath subpath{points.front(), {}, closed};
  for (std::size_t k = 1; k < points.size(); ++k)
    subpath.segments.emplace_back(leaf::Line{points[k]});
  if (closed)
    subpath.segments.emplace_back(leaf::Line{points.front()});
  return subpath;
}

Subpath ellipse_of(Point centre, double rx, double ry) {
  const Point right{centre.x + rx, centre.z}, left{centre.x - rx, centre.z};
  return {right, {leaf::Arc{rx, ry, 0, false, true, left}, leaf::Arc{rx, ry, 0, false, true, right}}, true};
}

/// SVG 2, section 10.2: a radius that is not given follows the other one, none is larger than half a side.
Subpaths rectangle(double x, double y, double width, double height, std::optional<double> rx,
                   std::optional<double> ry) {
  if (!(width > 0) || !(height > 0))
    return {};
  const double a = std::clamp(rx.value_or(ry.value_or(0)), 0.0, width / 2);
  const double b = std::clamp(ry.value_or(rx.value_or(0)), 0.0, height / 2);
  if (a == 0 || b == 0)
    return {polygon_of({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, true)};
  const auto corner = [&](Point to) { return leaf::Arc{a, b, 0, false, true, to}; };
  Subpath subpath{{x + a, y}, {}, true};
  subpath.segments = {leaf::Line{{x + width - a, y}},
                      corner({x + width, y + b}),
                      leaf::Line{{x + width, y + height - b}},
                      corner({x + width - a, y + height}),
                      leaf::Line{{x + a, y + height}},
                      corner({x, y + height - b}),
                      leaf::Line{{x, y + b}},
                      corner({x + a, y})};
  return {subpath};
}

class ShapeReader {
public:
  ShapeReader(pugi::xml_node element, const Viewport& viewport) : element_(element), viewport_(viewport) {}

  std::variant<Subpaths, std::string> read() const {
    const std::string_view name = local_name(element_);
    if (name == "path")
      return path();
    if (name == "rect")
      return rectangle(across("x"), down("y"), across("width"), down("height"), given("rx", viewport_.width),
                       given("ry", viewport_.height));
    if (name == "circle" || name == "ellipse")
      return round(name == "circle");
    if (name == "line")
      return Subpaths{polygon_of({{across("x1"), down("y1")}, {across("x2"), down("y2")}}, false)};
    return points(name == "polygon");
  }

private:
  /// Empty when absent, "auto" or negative.
  std::optional<double> given(const char* attribute, double whole) const {
    const auto value = length(element_.attribute(attribute).value(), whole);
    return value && *value >= 0 ? value : std::nullopt;
  }
  double across(const char* attribute) const {
    return length(element_.attribute(attribute).value(), viewport_.width).value_or(0);
  }
  double down(const char* attribute) const {
    return length(element_.attribute(attribute).value(), viewport_.height).value_or(0);
  }

  Subpaths round(bool circle) const {
    const auto rx = circle ? given("r", diagonal(viewport_)) : given("rx", viewport_.width);
    const auto ry = circle ? rx : given("ry", viewport_.height);
    const double a = rx.value_or(ry.value_or(0)), b = ry.value_or(rx.value_or(0));
    return a > 0 && b > 0 ? Subpaths{ellipse_of({across("cx"), down("cy")}, a, b)} : Subpaths{};
  }

  Subpaths points(bool closed) const {
    const auto v = numbers(element_.attribute("points").value());
    std::vector<Point> corners;
    for (std::size_t k = 0; k + 1 < v.size(); k += 2)
      corners.push_back({v[k], v[k + 1]});
    return corners.size() < 2 ? Subpaths{} : Subpaths{polygon_of(corners, closed)};
  }

  std::variant<Subpaths, std::string> path() const {
    const std::string_view data = element_.attribute("d").value();
    if (data.find_first_not_of(" \t\r\n\f") == std::string_view::npos || data == "none")
      return Subpaths{};
    auto parsed = leaf::parse_path_data(data);
    if (auto* fault = std::get_if<leaf::PathFault>(&parsed))
      return std::move(fault->sentence);
    return std::get<Subpaths>(std::move(parsed));
  }

  pugi::xml_node element_;
  Viewport viewport_;
};

/// An arc as cubics of at most an eighth of a turn: within 4e-6 of the radius.
void append_arc(Point from, const leaf::Arc& arc, std::vector<leaf::Segment>& segments) {
  const auto centred = leaf::centred(from, arc);
  if (!centred) {
    segments.emplace_back(leaf::Line{arc.to});
    return;
  }
  const int count = std::max(1, static_cast<int>(std::ceil(std::abs(centred->turn_rad) / (std::numbers::pi / 4))));
  const double step = centred->turn_rad / count;
  const double reach = 4.0 / 3 * std::tan(step / 4);
  const double c = std::cos(centred->rotation_rad), s = std::sin(centred->rotation_rad);
  const auto tangent = [&](double angle) {
    const double u = -centred->radius_x * std::sin(angle), v = centred->radius_z * std::cos(angle);
    return Point{c * u - s * v, s * u + c * v};
  };
  for (int k = 0; k < count; ++k) {
    const double a = centred->start_rad + k * step, b = a + step;
    const Point p = centred->at(a), q = k + 1 == count ? arc.to : centred->at(b);
    const Point out = tangent(a), in = tangent(b);
    segments.emplace_back(
        leaf::Cubic{{p.x + reach * out.x, p.z + reach * out.z}, {q.x - reach * in.x, q.z - reach * in.z}, q});
  }
}

} // namespace

bool is_shape(std::string_view name) {
  return name == "path" || name == "rect" || name == "circle" || name == "ellipse" || name == "line" ||
         name == "polyline" || name == "polygon";
}

std::variant<Subpaths, std::string> shape_of(pugi::xml_node element, const Viewport& viewport) {
  return ShapeReader(element, viewport).read();
}

Subpath transformed(const Subpath& subpath, const Matrix& m) {
  std::vector<leaf::Segment> plain;
  Point from = subpath.start;
  for (const leaf::Segment& segment : subpath.segments) {
    if (const auto* arc = std::get_if<leaf::Arc>(&segment))
      append_arc(from, *arc, plain);
    else
      plain.push_back(segment);
    from = leaf::end_of(segment);
  }
  for (leaf::Segment& segment : plain) {
    if (auto* line = std::get_if<leaf::Line>(&segment))
      line->to = m * line->to;
    else if (auto* quadratic = std::get_if<leaf::Quadratic>(&segment))
      *quadratic = {m * quadratic->control, m * quadratic->to};
    else if (auto* cubic = std::get_if<leaf::Cubic>(&segment))
      *cubic = {m * cubic->control1, m * cubic->control2, m * cubic->to};
  }
  return {m * subpath.start, std::move(plain), subpath.closed};
}

} // namespace fanwright::traced
