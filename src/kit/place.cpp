#include "kit/place.h"

#include "leaf/contour.h"

#include <algorithm>

namespace fanwright::kit {

namespace {

drawing::Segment on_page(const leaf::Segment& segment, const leaf::Point& from, const Place& place) {
  if (const auto* s = std::get_if<leaf::Line>(&segment))
    return drawing::Line{place(s->to)};
  if (const auto* s = std::get_if<leaf::Cubic>(&segment))
    return drawing::Cubic{place(s->control1), place(s->control2), place(s->to)};
  if (const auto* s = std::get_if<leaf::Quadratic>(&segment)) {
    // A quadratic is exactly the cubic whose controls lie two thirds of the way to its own.
    const auto toward = [&](const leaf::Point& p) {
      return leaf::Point{p.x + (s->control.x - p.x) * 2 / 3, p.z + (s->control.z - p.z) * 2 / 3};
    };
    return drawing::Cubic{place(toward(from)), place(toward(s->to)), place(s->to)};
  }
  // Turning adds to the ellipse's rotation. The step from z up to y down mirrors, which reverses rotation and sweep;
  // the view from behind mirrors once more.
  const auto& s = std::get<leaf::Arc>(segment);
  const double rotation = s.rotation_deg + place.turn_deg;
  return drawing::Arc{s.radius_x, s.radius_z, place.mirrored ? rotation : -rotation, s.large, s.sweep == place.mirrored,
                      place(s.to)};
}

} // namespace

drawing::Point Place::operator()(const leaf::Point& point) const {
  const leaf::Point turned = sheets::placed({turn_deg, 0, 0}, point);
  return {origin.x + (mirrored ? -turned.x : turned.x), origin.y - turned.z};
}

Place on_sheet(const sheets::Placement& placement, double sheet_height_mm) {
  return {placement.turn_deg, false, {placement.x_mm, sheet_height_mm - placement.z_mm}};
}

Place from_behind(const Place& place, double page_width_mm) {
  return {place.turn_deg, !place.mirrored, {page_width_mm - place.origin.x, place.origin.y}};
}

drawing::Path path_of(drawing::Step step, const leaf::Contour& contour, const Place& place) {
  drawing::Path path{step, {}, drawing::usual_pen(step)};
  path.segments.push_back(drawing::Move{place(contour.start)});
  leaf::Point from = contour.start;
  for (const leaf::Segment& segment : contour.segments) {
    path.segments.push_back(on_page(segment, from, place));
    from = leaf::end_of(segment);
  }
  path.segments.push_back(drawing::Close{});
  return path;
}

PageBox box_of(const leaf::Ring& ring, const Place& place) {
  PageBox box{1e9, 1e9, -1e9, -1e9};
  for (const leaf::Point& point : ring) {
    const drawing::Point p = place(point);
    box = {std::min(box.left, p.x), std::min(box.top, p.y), std::max(box.right, p.x), std::max(box.bottom, p.y)};
  }
  return box;
}

} // namespace fanwright::kit
