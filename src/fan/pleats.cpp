#include "fan/pleats.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;

double radians(double degrees) { return degrees * pi / 180; }
double degrees(double radians) { return radians * 180 / pi; }

/// A count that rounding alone lifted above a whole number is that number.
int even_at_least(double count) {
  const int whole = static_cast<int>(std::ceil(count - 1e-9));
  return whole + whole % 2;
}

} // namespace

double relief_mm(double depth_mm, double radius_mm, double panel_deg) {
  const double chord = 2 * radius_mm * std::sin(radians(panel_deg) / 2);
  return std::sqrt(std::max(0.0, depth_mm * depth_mm - chord * chord));
}

double crease_span_mm(double depth_mm, double inner_radius_mm, double outer_radius_mm, double panel_deg) {
  const double inner = relief_mm(depth_mm, inner_radius_mm, panel_deg);
  const double outer = relief_mm(depth_mm, outer_radius_mm, panel_deg);
  return std::hypot(outer_radius_mm - inner_radius_mm, (inner - outer) / 2);
}

double largest_panel_deg(double depth_mm, double radius_mm) {
  return degrees(2 * std::asin(std::min(1.0, depth_mm / (2 * radius_mm))));
}

int least_panels_for_disc(double depth_mm, double radius_mm) {
  return even_at_least(360 / largest_panel_deg(depth_mm, radius_mm));
}

int least_panels_tied(double depth_mm, double length_mm) {
  return even_at_least(180 / largest_panel_deg(depth_mm, length_mm / 2));
}

double fullness_of_disc(int panels, double depth_mm, double radius_mm) {
  return panels * depth_mm / (2 * pi * radius_mm);
}

double relief_share(double fullness) { return std::sqrt(std::max(0.0, 1 - 1 / (fullness * fullness))); }

double packed_radius_mm(int panels, double caliper_mm, double spread_deg, double looseness) {
  return looseness * panels * caliper_mm / radians(spread_deg);
}

double diagonal_shortfall_mm(double depth_mm, double length_mm, double rim_relief_mm) {
  return depth_mm * (depth_mm - rim_relief_mm) / (2 * std::hypot(depth_mm, length_mm));
}

std::optional<double> conical_tilt_deg(int panels, double sector_deg) {
  if (panels * sector_deg < 360 * (1 - 1e-12)) {
    return std::nullopt;
  }
  const double square = (1 + std::cos(radians(sector_deg))) / (1 + std::cos(2 * pi / panels));
  return degrees(std::acos(std::sqrt(std::min(1.0, square))));
}

} // namespace fanwright::fan
