#include "leaf/arc.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::leaf {
namespace {

constexpr double full_turn = 2 * std::numbers::pi;
constexpr double vanishing_radius_mm = 1e-9;

} // namespace

Point CentredArc::at(double angle_rad) const {
  const double c = std::cos(rotation_rad), s = std::sin(rotation_rad);
  const double u = radius_x * std::cos(angle_rad), v = radius_z * std::sin(angle_rad);
  return {centre.x + c * u - s * v, centre.z + s * u + c * v};
}

std::optional<CentredArc> centred(Point from, const Arc& arc) {
  double rx = std::abs(arc.radius_x), rz = std::abs(arc.radius_z);
  const double half_x = (from.x - arc.to.x) / 2, half_z = (from.z - arc.to.z) / 2;
  if (rx < vanishing_radius_mm || rz < vanishing_radius_mm || (half_x == 0 && half_z == 0))
    return std::nullopt;
  const double rotation = std::fmod(arc.rotation_deg, 360.0) * std::numbers::pi / 180;
  const double c = std::cos(rotation), s = std::sin(rotation);
  // Scaled into the frame where the ellipse is the unit circle: p = half chord, |p| <= 1 when the radii reach.
  double px = (c * half_x + s * half_z) / rx, pz = (-s * half_x + c * half_z) / rz;
  const double length = std::hypot(px, pz);
  if (length > 1) {
    rx *= length;
    rz *= length;
    px /= length;
    pz /= length;
  }
  // Enlarged radii just reach: the centre is the chord's middle, and the root would only amplify rounding.
  const double squared = length > 1 ? 1.0 : px * px + pz * pz;
  const double away = (arc.large == arc.sweep ? -1 : 1) * std::sqrt(std::max(0.0, 1 - squared) / squared);
  const double qx = away * pz, qz = -away * px; // centre in the unit frame, from the chord's middle

  CentredArc result;
  result.radius_x = rx;
  result.radius_z = rz;
  result.rotation_rad = rotation;
  result.centre = {c * rx * qx - s * rz * qz + (from.x + arc.to.x) / 2,
                   s * rx * qx + c * rz * qz + (from.z + arc.to.z) / 2};
  result.start_rad = std::atan2(pz - qz, px - qx);
  double turn = std::atan2(-pz - qz, -px - qx) - result.start_rad;
  if (arc.sweep && turn <= 0)
    turn += full_turn;
  if (!arc.sweep && turn >= 0)
    turn -= full_turn;
  result.turn_rad = turn;
  return result;
}

} // namespace fanwright::leaf
