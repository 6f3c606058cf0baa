#include "fan/space.h"

#include <algorithm>

namespace fanwright::fan {
namespace {

double distance_to_segment(const Point3& point, const Point3& a, const Point3& b) {
  const Point3 along = minus(b, a);
  const double squared = dot(along, along);
  const double t = squared > 0 ? std::clamp(dot(minus(point, a), along) / squared, 0.0, 1.0) : 0.0;
  return distance(point, plus(a, times(t, along)));
}

} // namespace

double distance_to_triangle(const Point3& point, const Point3& a, const Point3& b, const Point3& c) {
  const Point3 normal = cross(minus(b, a), minus(c, a));
  const double twice_area = length(normal);
  const auto within = [&](const Point3& from, const Point3& to) {
    return dot(cross(minus(to, from), minus(point, from)), normal) >= 0;
  };
  if (twice_area > 0 && within(a, b) && within(b, c) && within(c, a)) {
    return std::abs(dot(minus(point, a), normal)) / twice_area;
  }
  return std::min(
      {distance_to_segment(point, a, b), distance_to_segment(point, b, c), distance_to_segment(point, c, a)});
}

} // namespace fanwright::fan
