// Line drawings of the opened ornament on its way from the block to the whole.
#include "booklet/sketch.h"

#include "picture/line_drawing.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace fanwright::booklet {
namespace {

/// Lines of more leaves lie nearer to each other than their pens are wide, drawn 60 mm across.
constexpr int most_half_panels = 144;
/// Of a half-panel with its thickness: its cells stay true to 0.2 mm on the page, and five views take 0.6 s.
constexpr std::size_t half_panel_triangles = 1800;
constexpr double above_deg = 24, below_deg = -32;

/// The body with the angle of each of its wedges `share` as wide, and `half_panels` of them.
picture::Body narrowed(picture::Body body, double share, int half_panels) {
  for (auto& point : body.half.points) {
    const double radius = std::hypot(point[0], point[1]), angle = std::atan2(point[1], point[0]) * share;
    point[0] = radius * std::cos(angle), point[1] = radius * std::sin(angle);
  }
  body.wedge_rad *= share;
  body.half_panels = half_panels;
  return body;
}

struct Bounds {
  double left = 1e9, top = -1e9;
};

/// The drawing's upper left corner: seen from far, x to the right and up as line_drawing() puts them on its page.
Bounds bounds_of(const picture::Body& body, double towards_rad, double elevation_rad) {
  Bounds bounds;
  for (int k = 0; k < body.half_panels; ++k)
    for (const auto& point : body.half.points) {
      const double angle = std::atan2(point[1], point[0]);
      const double turned = (k % 2 != 0 ? -angle : angle) + picture::turn_rad(body, k) - towards_rad;
      const double radius = std::hypot(point[0], point[1]);
      bounds.left = std::min(bounds.left, radius * std::sin(turned));
      bounds.top = std::max(bounds.top,
                            point[2] * std::cos(elevation_rad) - radius * std::cos(turned) * std::sin(elevation_rad));
    }
  return bounds;
}

std::variant<OpenedView, std::string> view_of(const picture::Body& body, double azimuth_deg, double elevation_deg) {
  auto page = picture::line_drawing(body, {azimuth_deg, elevation_deg, 1, 0});
  if (auto* sentence = std::get_if<std::string>(&page))
    return std::move(*sentence);
  OpenedView view{std::get<drawing::Page>(std::move(page)), {}, {}};
  const double elevation = elevation_deg * std::numbers::pi / 180;
  const double middle = body.wedge_rad * body.half_panels / 2, leaf = 2 * body.wedge_rad;
  const double towards = std::round((azimuth_deg * std::numbers::pi / 180 + middle) / leaf) * leaf;
  const Bounds bounds = bounds_of(body, towards, elevation);
  double low = 1e9, high = -1e9;
  for (std::size_t k = 0; k < body.half.points.size(); ++k)
    if (body.half.flat[k].x <= 1e-6) {
      low = std::min(low, body.half.points[k][2]);
      high = std::max(high, body.half.points[k][2]);
    }
  view.spine_top = {-bounds.left, bounds.top - high * std::cos(elevation)};
  view.spine_foot = {-bounds.left, bounds.top - low * std::cos(elevation)};
  return view;
}

} // namespace

std::variant<OpenedViews, std::string> opened_views(const picture::Body& body) {
  if (body.half_panels < 2)
    return "There is no surface to draw; open the ornament first.";
  const int drawn = std::min(body.half_panels, most_half_panels);
  const double wider = static_cast<double>(body.half_panels) / drawn;
  const picture::Body whole = narrowed(body, wider, drawn);
  const int gap = std::max(2, drawn / 24) * 2; // at the seam, in half-panels
  struct Wanted {
    OpenedView OpenedViews::*view;
    picture::Body body;
    double azimuth_deg, elevation_deg;
  };
  const Wanted wanted[] = {
      {&OpenedViews::third, narrowed(whole, 1.0 / 3, drawn), 0, above_deg},
      {&OpenedViews::two_thirds, narrowed(whole, 2.0 / 3, drawn), 0, above_deg},
      {&OpenedViews::whole, whole, 0, above_deg},
      {&OpenedViews::nearly, narrowed(whole, 1, std::max(2, drawn - gap)), 180, above_deg},
      {&OpenedViews::below, whole, 0, below_deg},
  };
  OpenedViews views;
  for (const auto& [place, turned, azimuth_deg, elevation_deg] : wanted) {
    auto view = view_of(turned, azimuth_deg, elevation_deg);
    if (auto* sentence = std::get_if<std::string>(&view))
      return std::move(*sentence);
    views.*place = std::get<OpenedView>(std::move(view));
  }
  return views;
}

std::variant<OpenedViews, std::string> opened_views(const opened::Panel& panel, const opened::Form& form) {
  const auto half_panels = static_cast<std::size_t>(2 * std::max(1, panel.leaves));
  auto body = picture::body_of(panel, form, "", "#ffffff", half_panel_triangles * half_panels);
  if (auto* sentence = std::get_if<std::string>(&body))
    return std::move(*sentence);
  return opened_views(std::get<picture::Body>(body));
}

} // namespace fanwright::booklet
