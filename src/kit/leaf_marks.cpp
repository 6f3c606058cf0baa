#include "kit/leaf_page.h"

namespace fanwright::kit {

namespace {

constexpr double hatch_spacing_mm = 1.6;
constexpr double inside_hatch_deg = 45, between_hatch_deg = -45;

/// From leaf coordinates (z up) by way of the sheet to the page (y down).
struct OnPage {
  sheets::Placement placement;
  double sheet_bottom_y;

  drawing::Point operator()(const leaf::Point& point) const {
    const leaf::Point on_sheet = sheets::placed(placement, point);
    return {on_sheet.x, sheet_bottom_y - on_sheet.z};
  }
};

leaf::Point end_of(const leaf::Segment& segment) {
  return std::visit([](const auto& s) { return s.to; }, segment);
}

drawing::Segment on_page(const leaf::Segment& segment, const leaf::Point& from, const OnPage& place) {
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
  const auto& s = std::get<leaf::Arc>(segment);
  // Turning adds to the ellipse's rotation; the step from z up to y down mirrors, and so reverses rotation and sweep.
  return drawing::Arc{s.radius_x, s.radius_z, -(s.rotation_deg + place.placement.turn_deg),
                      s.large,    !s.sweep,   place(s.to)};
}

drawing::Path contour_path(const leaf::Contour& contour, const OnPage& place) {
  drawing::Path path{drawing::Step::cut, {}, drawing::usual_pen(drawing::Step::cut)};
  path.segments.push_back(drawing::Move{place(contour.start)});
  leaf::Point from = contour.start;
  for (const leaf::Segment& segment : contour.segments) {
    path.segments.push_back(on_page(segment, from, place));
    from = end_of(segment);
  }
  path.segments.push_back(drawing::Close{});
  return path;
}

} // namespace

void add_leaf(drawing::Page& page, const leaf::Marks& marks, const sheets::Placement& placement,
              double sheet_bottom_y) {
  const OnPage place{placement, sheet_bottom_y};
  // Holes before the outline: the sheet holds the leaf still while its inside is cut.
  for (const leaf::Contour& cut_out : marks.cut_outs)
    page.items.push_back(contour_path(cut_out, place));
  page.items.push_back(contour_path(marks.cut, place));
  page.items.push_back(
      drawing::polyline(drawing::Step::score, {place(marks.score_foot), place(marks.score_top)}, false));
  for (const leaf::GlueMark& mark : marks.glue) {
    const bool inside = mark.face == leaf::Face::inner;
    const drawing::Step step = inside ? drawing::Step::glue_inside : drawing::Step::glue_between;
    std::vector<drawing::Point> corners;
    for (const leaf::Point& corner : mark.corners)
      corners.push_back(place(corner));
    page.items.push_back(drawing::polyline(step, corners, true));
    page.items.push_back(
        drawing::hatched(step, corners, inside ? inside_hatch_deg : between_hatch_deg, hatch_spacing_mm));
  }
}

} // namespace fanwright::kit
