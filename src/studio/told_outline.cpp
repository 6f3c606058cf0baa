// Curves of every kind in lines and cubics, the two kinds that the page draws and drags.
#include "leaf/arc.h"
#include "leaf/contour.h"
#include "studio/json.h"
#include "studio/told.h"

#include <cmath>
#include <numbers>

namespace fanwright::studio::told {
namespace {

using leaf::Point;

Json pair(Point point) { return Json::array({rounded(point.x), rounded(point.z)}); }

Json cubic(Point control1, Point control2, Point to) {
  return {{"to", pair(to)}, {"c1", pair(control1)}, {"c2", pair(control2)}};
}

/// The ellipse's derivative by its angle.
Point along(const leaf::CentredArc& arc, double angle) {
  const double x = -arc.radius_x * std::sin(angle), z = arc.radius_z * std::cos(angle);
  const double c = std::cos(arc.rotation_rad), s = std::sin(arc.rotation_rad);
  return {c * x - s * z, s * x + c * z};
}

/// A cubic for each quarter or less: handles of 4/3 tan(turn / 4) keep within 0.03 % of the radius (Riskus, 2006; from
/// memory).
void append_arc(Json& segments, Point from, const leaf::Arc& drawn) {
  const auto arc = leaf::centred(from, drawn);
  if (!arc) {
    segments.push_back({{"to", pair(drawn.to)}});
    return;
  }
  const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(arc->turn_rad) / (std::numbers::pi / 2) - 1e-9)));
  const double step = arc->turn_rad / parts, handle = 4.0 / 3.0 * std::tan(step / 4);
  for (int k = 0; k < parts; ++k) {
    const double begin = arc->start_rad + k * step, end = begin + step;
    const Point a = k == 0 ? from : arc->at(begin), b = k + 1 == parts ? drawn.to : arc->at(end);
    const Point da = along(*arc, begin), db = along(*arc, end);
    segments.push_back(
        cubic({a.x + handle * da.x, a.z + handle * da.z}, {b.x - handle * db.x, b.z - handle * db.z}, b));
  }
}

void append(Json& segments, Point from, const leaf::Segment& segment) {
  if (const auto* line = std::get_if<leaf::Line>(&segment)) {
    segments.push_back({{"to", pair(line->to)}});
  } else if (const auto* given = std::get_if<leaf::Cubic>(&segment)) {
    segments.push_back(cubic(given->control1, given->control2, given->to));
  } else if (const auto* quadratic = std::get_if<leaf::Quadratic>(&segment)) {
    const Point c = quadratic->control, to = quadratic->to; // raised by a degree: controls two thirds of the way to c
    segments.push_back(cubic({from.x + 2 * (c.x - from.x) / 3, from.z + 2 * (c.z - from.z) / 3},
                             {to.x + 2 * (c.x - to.x) / 3, to.z + 2 * (c.z - to.z) / 3}, to));
  } else {
    append_arc(segments, from, std::get<leaf::Arc>(segment));
  }
}

std::string path_data(const Json& contours) {
  std::string path;
  const auto add = [&](const std::string& command, const Json& point) {
    path +=
        (path.empty() ? "" : " ") + command + (command.empty() ? "" : " ") + point[0].dump() + " " + point[1].dump();
  };
  for (const Json& contour : contours) {
    add("M", contour["start"]);
    for (const Json& segment : contour["segments"]) {
      if (segment.contains("c1")) {
        add("C", segment["c1"]);
        add("", segment["c2"]);
        add("", segment["to"]);
      } else {
        add("L", segment["to"]);
      }
    }
    if (contour["closed"] == true)
      path += " Z";
  }
  return path;
}

} // namespace

std::string outline(const std::vector<leaf::Subpath>& subpaths) {
  Json contours = Json::array();
  for (const leaf::Subpath& subpath : subpaths) {
    Json segments = Json::array();
    Point from = subpath.start;
    for (const leaf::Segment& segment : subpath.segments) {
      append(segments, from, segment);
      from = leaf::end_of(segment);
    }
    contours.push_back({{"start", pair(subpath.start)}, {"closed", subpath.closed}, {"segments", std::move(segments)}});
  }
  std::string path = path_data(contours);
  return line_of({{"contours", std::move(contours)}, {"path", std::move(path)}});
}

} // namespace fanwright::studio::told
