// Points and directions in space. Inside src/fan.
#pragma once

#include "fan/spread.h"

#include <cmath>

namespace fanwright::fan {

inline Point3 plus(const Point3& a, const Point3& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
inline Point3 minus(const Point3& a, const Point3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
inline Point3 times(double f, const Point3& a) { return {f * a[0], f * a[1], f * a[2]}; }
inline double dot(const Point3& a, const Point3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
inline Point3 cross(const Point3& a, const Point3& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
inline double length(const Point3& a) { return std::sqrt(dot(a, a)); }
inline double distance(const Point3& a, const Point3& b) { return length(minus(a, b)); }

/// Distance from a point to a triangle.
double distance_to_triangle(const Point3& point, const Point3& a, const Point3& b, const Point3& c);

} // namespace fanwright::fan
