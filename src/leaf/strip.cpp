#include "leaf/strip.h"

#include <algorithm>
#include <cmath>

namespace fanwright::leaf {
namespace {

double centre_z(const GlueRow& row, double x) {
  return row.from.z + (row.to.z - row.from.z) * (x - row.from.x) / (row.to.x - row.from.x);
}

} // namespace

std::array<Point, 4> corners(const GlueRow& row) {
  const double half = row.width_mm / 2;
  return {Point{row.from.x, row.from.z - half}, Point{row.to.x, row.to.z - half}, Point{row.to.x, row.to.z + half},
          Point{row.from.x, row.from.z + half}};
}

double middle_z(const GlueRow& row) { return (row.from.z + row.to.z) / 2; }

double clear_between(const GlueRow& a, const GlueRow& b) {
  const double left = std::max(a.from.x, b.from.x), right = std::min(a.to.x, b.to.x);
  if (left > right) {
    // Side by side, at whatever heights: what counts is the way round the nearer end.
    const Point& a_end = a.from.x > b.from.x ? a.from : a.to;
    const Point& b_end = a.from.x > b.from.x ? b.to : b.from;
    return std::max(left - right, std::abs(a_end.z - b_end.z) - (a.width_mm + b.width_mm) / 2);
  }
  // The difference of two straight lines is largest and smallest at the ends of their common stretch.
  const double at_left = centre_z(a, left) - centre_z(b, left);
  const double at_right = centre_z(a, right) - centre_z(b, right);
  const bool crossing = (at_left > 0) != (at_right > 0);
  const double apart = crossing ? 0 : std::min(std::abs(at_left), std::abs(at_right));
  return apart - (a.width_mm + b.width_mm) / 2;
}

} // namespace fanwright::leaf
