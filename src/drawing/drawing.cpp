#include "drawing/drawing.h"

#include "drawing/centred_arc.h"
#include "drawing/decimal.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace fanwright::drawing {

namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

} // namespace

std::string_view name_of(Step step) {
  switch (step) {
  case Step::print:
    return "Print";
  case Step::cut:
    return "Cut";
  case Step::perforate:
    return "Perforate";
  case Step::score:
    return "Score";
  case Step::reverse_score:
    return "Score on the back";
  case Step::glue_inside:
    return "Glue inside";
  case Step::glue_between:
    return "Glue between";
  case Step::dimension:
    return "Dimensions";
  case Step::legend:
    return "Notes";
  }
  return "Notes";
}

Pen usual_pen(Step step) {
  switch (step) {
  case Step::cut:
    return {0.25, {}, false, {}};
  case Step::perforate:
    return {0.25, {2.0, 1.5}, false, {}};
  case Step::score:
    return {0.25, {6.0, 1.5}, false, {}};
  case Step::reverse_score:
    return {0.25, {6.0, 1.0, 0.5, 1.0}, false, {}};
  case Step::glue_between:
    return {0.18, {1.2, 0.8}, false, {}};
  case Step::glue_inside:
  case Step::print:
  case Step::dimension:
  case Step::legend:
    return {0.18, {}, false, {}};
  }
  return {};
}

std::vector<Cubic> cubics_of(const Point& from, const Arc& arc) {
  const bool same_place = from.x == arc.to.x && from.y == arc.to.y;
  if (same_place)
    return {};
  if (arc.radius_x == 0 || arc.radius_y == 0)
    return {{from, arc.to, arc.to}};
  const CentredArc whole = centred(from, arc);
  const int pieces =
      std::max(1, static_cast<int>(std::ceil(std::abs(whole.sweep_rad) / (std::numbers::pi / 4) - 1e-9)));
  const double step = whole.sweep_rad / pieces;
  const double reach = 4.0 / 3.0 * std::tan(step / 4); // control distance of the usual cubic for a circular arc
  std::vector<Cubic> cubics;
  for (int i = 0; i < pieces; ++i) {
    const double a = whole.start_rad + i * step, b = a + step;
    const double ca = std::cos(a), sa = std::sin(a), cb = std::cos(b), sb = std::sin(b);
    const Point to = i + 1 == pieces ? arc.to : on(whole, cb, sb);
    cubics.push_back({on(whole, ca - reach * sa, sa + reach * ca), on(whole, cb + reach * sb, sb - reach * cb), to});
  }
  return cubics;
}

Path hatched(Step step, const std::vector<Point>& convex_area, double angle_deg, double spacing_mm) {
  Path path{step, {}, {hairline_mm, {}, false, {}}};
  const double c = std::cos(angle_deg * radians_per_degree), s = std::sin(angle_deg * radians_per_degree);
  const auto across = [&](const Point& p) { return -s * p.x + c * p.y; };
  if (convex_area.size() < 3 || !(spacing_mm > 0))
    return path;
  const auto [low, high] = std::minmax_element(convex_area.begin(), convex_area.end(),
                                               [&](const Point& a, const Point& b) { return across(a) < across(b); });
  const double first = across(*low), last = across(*high);
  // Ten thousand lines are more than any sheet can show.
  const int lines = static_cast<int>(std::min(1e4, (last - first) / spacing_mm));
  for (int i = 0; i <= lines; ++i) {
    const double level = first + (i + 0.5) * spacing_mm;
    std::vector<Point> ends;
    for (std::size_t k = 0; k < convex_area.size(); ++k) {
      const Point &p = convex_area[k], &q = convex_area[(k + 1) % convex_area.size()];
      const double dp = across(p) - level, dq = across(q) - level;
      if ((dp < 0) != (dq < 0))
        ends.push_back({p.x + (q.x - p.x) * dp / (dp - dq), p.y + (q.y - p.y) * dp / (dp - dq)});
    }
    if (ends.size() == 2) {
      path.segments.push_back(Move{ends[0]});
      path.segments.push_back(Line{ends[1]});
    }
  }
  return path;
}

Path polyline(Step step, const std::vector<Point>& points, bool closed) {
  Path path{step, {}, usual_pen(step)};
  for (const Point& point : points) {
    if (path.segments.empty())
      path.segments.push_back(Move{point});
    else
      path.segments.push_back(Line{point});
  }
  if (closed && !points.empty())
    path.segments.push_back(Close{});
  return path;
}

double fitted_size_mm(std::string_view words, double width_mm, double largest_mm, bool bold) {
  const double letter = bold ? 0.72 : 0.62; // of its size, measured on sentences in the built-in font
  const auto letters = std::count_if(words.begin(), words.end(),
                                     [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
  return std::clamp(width_mm / (letter * static_cast<double>(std::max<std::ptrdiff_t>(1, letters))), 0.5, largest_mm);
}

} // namespace fanwright::drawing
