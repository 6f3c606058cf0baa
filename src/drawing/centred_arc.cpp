// Based on SVG 2 (W3C), appendix B.2.4 and section 9.5.2.
#include "drawing/centred_arc.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::drawing {

CentredArc centred(const Point& from, const Arc& arc) {
  const double rotation = arc.rotation_deg * (std::numbers::pi / 180.0);
  const double c = std::cos(rotation), s = std::sin(rotation);
  const double half_x = (from.x - arc.to.x) / 2, half_y = (from.y - arc.to.y) / 2;
  const double x1 = c * half_x + s * half_y, y1 = -s * half_x + c * half_y;
  double rx = std::abs(arc.radius_x), ry = std::abs(arc.radius_y);
  const double excess = x1 * x1 / (rx * rx) + y1 * y1 / (ry * ry);
  if (excess > 1) {
    rx *= std::sqrt(excess);
    ry *= std::sqrt(excess);
  }
  const double distance = rx * rx * y1 * y1 + ry * ry * x1 * x1;
  double factor = std::sqrt(std::max(0.0, rx * rx * ry * ry / distance - 1));
  if (arc.large == arc.sweep)
    factor = -factor;
  const double cx = factor * rx * y1 / ry, cy = -factor * ry * x1 / rx;
  const double start = std::atan2((y1 - cy) / ry, (x1 - cx) / rx);
  double sweep = std::atan2((-y1 - cy) / ry, (-x1 - cx) / rx) - start;
  if (arc.sweep && sweep < 0)
    sweep += 2 * std::numbers::pi;
  if (!arc.sweep && sweep > 0)
    sweep -= 2 * std::numbers::pi;
  return {{c * cx - s * cy + (from.x + arc.to.x) / 2, s * cx + c * cy + (from.y + arc.to.y) / 2},
          rx,
          ry,
          rotation,
          start,
          sweep};
}

Point on(const CentredArc& arc, double unit_x, double unit_y) {
  const double x = arc.radius_x * unit_x, y = arc.radius_y * unit_y;
  const double c = std::cos(arc.rotation_rad), s = std::sin(arc.rotation_rad);
  return {arc.centre.x + c * x - s * y, arc.centre.y + s * x + c * y};
}

} // namespace fanwright::drawing
