#include "picture/occlusion.h"

#include "picture/chance.h"
#include "picture/scene.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace fanwright::picture {
namespace {

constexpr int directions = 10;    ///< for each side of each point; neighbours are averaged afterwards
constexpr int most_mirrors = 16;  ///< a ray that is still between the walls then lies in a dark corner
constexpr float clear_mm = 0.05F; ///< rays start this far off the paper, so that they do not meet where they start

Vec3 vec(const opened::Point3& p) {
  return {static_cast<float>(p[0]), static_cast<float>(p[1]), static_cast<float>(p[2])};
}

/// The room in which a ray wanders: between wall A (y = 0) and wall B, within the ornament's radius and height.
struct Wedge {
  Vec3 normal_a{0, -1, 0}, normal_b; ///< unit, out of the wedge
  float radius = 0, low = 0, high = 0;

  /// Distance along the ray to a wall through the axis; infinite when it is not met.
  static float to_wall(const Ray& ray, Vec3 normal) {
    const float towards = dot(ray.direction, normal);
    const float distance = -dot(ray.origin, normal) / towards;
    return towards > 1e-6F && distance >= 0 ? distance : std::numeric_limits<float>::infinity();
  }

  bool left_by(Vec3 p) const { return std::hypot(p.x, p.y) > radius || p.z > high || p.z < low; }
};

Wedge wedge_of(const HalfPanel& half, double wedge_rad) {
  Wedge wedge;
  wedge.normal_b = {static_cast<float>(-std::sin(wedge_rad)), static_cast<float>(std::cos(wedge_rad)), 0};
  wedge.low = std::numeric_limits<float>::infinity();
  wedge.high = -wedge.low;
  for (const auto& point : half.points) {
    const Vec3 p = vec(point);
    wedge.radius = std::max(wedge.radius, std::hypot(p.x, p.y) + 1);
    wedge.low = std::min(wedge.low, p.z - 1);
    wedge.high = std::max(wedge.high, p.z + 1);
  }
  return wedge;
}

void mirror(Ray& ray, Vec3 normal) {
  ray.direction = ray.direction - normal * (2 * dot(ray.direction, normal));
  ray.origin = ray.origin - normal * std::max(0.0F, 2 * dot(ray.origin, normal));
}

/// Whether a ray comes out of the ornament. A wall it meets turns it back, as it would go on in the mirrored neighbour.
bool comes_out(const Scene& scene, const Wedge& wedge, Ray ray) {
  const float far = 4 * (wedge.radius + wedge.high - wedge.low);
  for (const Vec3 normal : {wedge.normal_a, wedge.normal_b})
    if (dot(ray.origin, normal) > 0)
      mirror(ray, normal);
  for (int k = 0; k < most_mirrors; ++k) {
    const float a = Wedge::to_wall(ray, wedge.normal_a), b = Wedge::to_wall(ray, wedge.normal_b);
    const float distance = std::min({a, b, far});
    if (scene.blocked(ray, distance))
      return false;
    ray.origin = ray.origin + ray.direction * distance;
    if (distance == far || wedge.left_by(ray.origin))
      return true;
    mirror(ray, a < b ? wedge.normal_a : wedge.normal_b);
  }
  return false;
}

/// A direction about `normal`, cosine-weighted.
Vec3 direction(Vec3 normal, Pair random) {
  const Vec3 side = unit(cross(std::abs(normal.z) < 0.9F ? Vec3{0, 0, 1} : Vec3{1, 0, 0}, normal));
  const Vec3 other = cross(normal, side);
  const float angle = 2 * std::numbers::pi_v<float> * random.u, sine = std::sqrt(random.v);
  return side * (sine * std::cos(angle)) + other * (sine * std::sin(angle)) + normal * std::sqrt(1 - random.v);
}

/// Each point takes half of the mean of its neighbours: few rays a point would show as grain.
std::vector<float> smoothed(const HalfPanel& half, const std::vector<float>& values) {
  std::vector<float> sums(values.size(), 0), counts(values.size(), 0);
  for (const auto& triangle : half.triangles)
    for (const int to : triangle)
      for (const int from : triangle)
        if (from != to) {
          sums[static_cast<std::size_t>(to)] += values[static_cast<std::size_t>(from)];
          counts[static_cast<std::size_t>(to)] += 1;
        }
  std::vector<float> result(values.size());
  for (std::size_t k = 0; k < values.size(); ++k)
    result[k] = counts[k] > 0 ? 0.5F * (values[k] + sums[k] / counts[k]) : values[k];
  return result;
}

} // namespace

std::vector<float> openness(const HalfPanel& half, double wedge_rad) {
  Surface surface;
  for (std::size_t k = 0; k < half.points.size(); ++k) {
    surface.points.push_back(vec(half.points[k]));
    surface.normals.push_back(vec(half.normals[k]));
  }
  for (const auto& t : half.triangles)
    surface.triangles.push_back(
        {static_cast<unsigned>(t[0]), static_cast<unsigned>(t[1]), static_cast<unsigned>(t[2])});
  const auto scene = Scene::build(std::move(surface), true);
  if (!scene)
    return {};
  const Wedge wedge = wedge_of(half, wedge_rad);
  std::vector<float> open(half.points.size(), 0);
  for (std::size_t k = 0; k < half.points.size(); ++k) {
    int out = 0;
    for (const float side : {1.0F, -1.0F}) {
      const Vec3 normal = side * vec(half.normals[k]);
      for (int ray = 0; ray < directions; ++ray) {
        Chance chance(static_cast<std::uint32_t>(k), side > 0 ? 0 : 1, static_cast<std::uint32_t>(ray));
        out += comes_out(*scene, wedge, {vec(half.points[k]) + normal * clear_mm, direction(normal, chance.next())});
      }
    }
    open[k] = static_cast<float>(out) / (2 * directions);
  }
  return smoothed(half, open);
}

} // namespace fanwright::picture
