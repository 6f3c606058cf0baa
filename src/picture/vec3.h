// Three floats: a place or direction (mm, Z up) or a linear-light colour (red, green, blue).
#pragma once

#include <cmath>

namespace fanwright::picture {

struct Vec3 {
  float x = 0, y = 0, z = 0;
};

constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
constexpr Vec3 operator*(Vec3 a, Vec3 b) { return {a.x * b.x, a.y * b.y, a.z * b.z}; }
constexpr Vec3 operator*(Vec3 a, float s) { return {a.x * s, a.y * s, a.z * s}; }
constexpr Vec3 operator*(float s, Vec3 a) { return a * s; }
constexpr float dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
inline float length(Vec3 a) { return std::sqrt(dot(a, a)); }

/// Unit vector; the zero vector gives +Z, so that degenerate triangles stay harmless.
inline Vec3 unit(Vec3 a) {
  const float l = length(a);
  return l > 0 ? a * (1 / l) : Vec3{0, 0, 1};
}

/// A point and a unit direction.
struct Ray {
  Vec3 origin, direction;
};

} // namespace fanwright::picture
