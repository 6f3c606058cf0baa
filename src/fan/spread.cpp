#include "fan/spread.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;

/// Crease length over p / (2 sin(a/2)) from the axis to where the panel lies flat.
double flat_at(double panel_rad) { return std::ellint_2(std::cos(panel_rad / 2), pi / 2); }

/// Slope across a panel at `radius_mm`, radians; beyond where the panel lies flat, that.
double slope(const Pleats& pleats, double panel_rad, double radius_mm) {
  return std::asin(std::min(1.0, 2 * radius_mm * std::sin(panel_rad / 2) / pleats.depth_mm));
}

bool creases_allow(const Pleats& pleats, double panel_rad) {
  const double modulus = std::cos(panel_rad / 2);
  const double inner = std::ellint_2(modulus, slope(pleats, panel_rad, pleats.inner_radius_mm));
  return pleats.depth_mm / (2 * std::sin(panel_rad / 2)) * (flat_at(panel_rad) - inner) >= pleats.length_mm;
}

/// Largest panel angle for which `allowed` holds; it holds for the smallest and fails ever after it first failed.
template <typename Allowed> double largest_panel_rad(const Allowed& allowed) {
  double low = 1e-7, high = pi;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    (allowed(middle) ? low : high) = middle;
  }
  return low;
}

} // namespace

double largest_spread_deg(const Pleats& pleats) {
  return pleats.panels * 180 / pi * largest_panel_rad([&](double a) { return creases_allow(pleats, a); });
}

double largest_spread_deg(const Pleats& pleats, double most_stretch) {
  return pleats.panels * 180 / pi * largest_panel_rad([&](double a) {
           return creases_allow(pleats, a) && Spread(pleats, pleats.panels * a * 180 / pi).stretch() <= most_stretch;
         });
}

Spread::Spread(const Pleats& pleats, double spread_deg, double middle_deg)
    : pleats_(pleats), panel_rad_(spread_deg * pi / 180 / pleats.panels), middle_rad_(middle_deg * pi / 180),
      half_sine_(std::sin(panel_rad_ / 2)), modulus_(std::cos(panel_rad_ / 2)) {
  assert(pleats.panels >= 2 && spread_deg > 0);
  inner_slope_ = slope_at_radius(pleats.inner_radius_mm);
}

double Spread::spread_deg() const { return spread_rad() * 180 / pi; }
double Spread::panel_deg() const { return panel_rad_ * 180 / pi; }
double Spread::first_side_deg() const { return azimuth_rad(0) * 180 / pi; }

double Spread::azimuth_rad(double k) const { return middle_rad_ + (0.5 * pleats_.panels - k) * panel_rad_; }

double Spread::slope_at_radius(double radius_mm) const { return slope(pleats_, panel_rad_, radius_mm); }

double Spread::slope_at(double v_mm) const {
  const double wanted = std::ellint_2(modulus_, inner_slope_) + 2 * half_sine_ / pleats_.depth_mm * v_mm;
  // E grows with the slope and ever more slowly, so that steps from below never pass the answer.
  double y = inner_slope_;
  for (int step = 0; step < 60; ++step) {
    const double sine = modulus_ * std::sin(y);
    const double change = (wanted - std::ellint_2(modulus_, y)) / std::sqrt(std::max(1e-12, 1 - sine * sine));
    y = std::min(pi / 2, y + change);
    if (std::abs(change) < 1e-14) {
      break;
    }
  }
  return y;
}

double Spread::radius_at(double v_mm) const { return pleats_.depth_mm * std::sin(slope_at(v_mm)) / (2 * half_sine_); }

double Spread::relief_at(double v_mm) const { return pleats_.depth_mm * std::cos(slope_at(v_mm)); }

Point3 Spread::crease(int k, double v_mm) const {
  const double y = slope_at(v_mm);
  const double radius = pleats_.depth_mm * std::sin(y) / (2 * half_sine_);
  const double height = pleats_.depth_mm * std::cos(y) / 2 * (k % 2 == 0 ? -1 : 1);
  const double azimuth = azimuth_rad(k);
  return {radius * std::cos(azimuth), radius * std::sin(azimuth), height};
}

Point3 Spread::place(leaf::Point flat) const {
  const double along = flat.x / pleats_.depth_mm;
  const int k = std::clamp(static_cast<int>(std::floor(along)), 0, pleats_.panels - 1);
  const Point3 from = crease(k, flat.z);
  const Point3 to = crease(k + 1, flat.z);
  const double t = along - k;
  return {from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1]), from[2] + t * (to[2] - from[2])};
}

std::optional<leaf::Point> Spread::flat(double distance_mm, double turned_rad) const {
  const double along = turned_rad / panel_rad_;
  if (along < -1e-9 || along > pleats_.panels + 1e-9) {
    return std::nullopt;
  }
  const int k = std::clamp(static_cast<int>(std::floor(along)), 0, pleats_.panels - 1);
  const double off_middle = (along - k - 0.5) * panel_rad_;
  // The straight line across the panel at radius r stands r cos(a/2) from the centre, square to the panel's middle.
  const double radius = distance_mm * std::cos(off_middle) / modulus_;
  const double sine = 2 * radius * half_sine_ / pleats_.depth_mm;
  const double share = 0.5 + std::tan(off_middle) / (2 * std::tan(panel_rad_ / 2));
  if (radius < pleats_.inner_radius_mm || sine > 1) {
    return std::nullopt;
  }
  const double v = (std::ellint_2(modulus_, std::asin(sine)) - std::ellint_2(modulus_, inner_slope_)) *
                   pleats_.depth_mm / (2 * half_sine_);
  return leaf::Point{(k + share) * pleats_.depth_mm, v};
}

double Spread::stretch() const {
  // Forces along a panel balance where the creases are longer by (y' p)^2 / 12. Its mean along the crease, with
  // dy/dv = (2 sin(a/2) / p) / sqrt(1 - k^2 sin^2 y), is p sin(a/2) / (6 H) (F(y_o, k) - F(y_i, k)).
  const double outer = slope_at(pleats_.length_mm);
  const double twist = std::ellint_1(modulus_, outer) - std::ellint_1(modulus_, inner_slope_);
  return pleats_.depth_mm * half_sine_ / (6 * pleats_.length_mm) * twist;
}

double Spread::bow_mm() const {
  // The ellipse (r, z) = (p / (2 s)) (sin y, s cos y) is farthest from its chord where its tangent has the chord's
  // direction: in the middle of the two angles, as of a circle that was squeezed.
  const double outer = slope_at(pleats_.length_mm);
  const double middle = (inner_slope_ + outer) / 2;
  const auto at = [&](double y) {
    return std::array{pleats_.depth_mm * std::sin(y) / (2 * half_sine_), pleats_.depth_mm * std::cos(y) / 2};
  };
  const auto [r0, z0] = at(inner_slope_);
  const auto [r1, z1] = at(outer);
  const auto [r, z] = at(middle);
  return std::abs((r1 - r0) * (z - z0) - (z1 - z0) * (r - r0)) / std::hypot(r1 - r0, z1 - z0);
}

} // namespace fanwright::fan
