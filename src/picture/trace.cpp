#include "picture/trace.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

constexpr float pi = std::numbers::pi_v<float>;

// Rays start this far off the paper, mm: well under half the thinnest paper (0.05 mm), far above float rounding of a
// 300 mm piece (0.00003 mm).
constexpr float lift_mm = 0.01F;

// Cosine-weighted direction about `normal`.
Vec3 scattered(Vec3 normal, Pair random) {
  const float r = std::sqrt(random.u), angle = 2 * pi * random.v;
  const Vec3 side = unit(std::abs(normal.z) < 0.9F ? cross(normal, {0, 0, 1}) : cross(normal, {1, 0, 0}));
  const Vec3 other = cross(normal, side);
  return unit(side * (r * std::cos(angle)) + other * (r * std::sin(angle)) +
              normal * std::sqrt(std::max(0.0F, 1 - random.u)));
}

float brightness(Vec3 colour) { return (colour.x + colour.y + colour.z) / 3; }

} // namespace

Vec3 Sky::radiance(Vec3 direction) const {
  const float height = std::max(0.0F, direction.z);
  return horizon * (1 - height) + zenith * height;
}

std::optional<float> Table::distance(const Ray& ray) const {
  const float towards = dot(ray.direction, normal), above = dot(ray.origin - point, normal);
  if (towards >= 0 || above <= 0)
    return std::nullopt;
  return -above / towards;
}

struct Tracer::Spot {
  Vec3 point, normal, facet_normal;
  Vec3 reflectance, transmittance;
};

// Light of the window on a spot, and what it would be with nothing in between.
struct Tracer::Lit {
  Vec3 seen, open;
};

// A direction drawn in proportion to the scattered light, and what its radiance counts for.
struct Tracer::Scattered {
  Ray ray;
  Vec3 weight;
};

Tracer::Tracer(const Scene& scene, const PaperLook& paper, const Lighting& lighting)
    : scene_(scene), paper_(paper), lighting_(lighting) {}

Tracer::Spot Tracer::paper_spot(Vec3 point, Vec3 normal, Vec3 facet_normal) const {
  return {point, normal, facet_normal, paper_.reflectance, paper_.transmittance};
}

std::optional<Tracer::Spot> Tracer::spot(const Ray& ray) const {
  const auto hit = scene_.hit(ray);
  if (const auto distance = table_distance(ray); distance && (!hit || *distance < hit->distance)) {
    const Table& table = *lighting_.table;
    return Spot{ray.origin + ray.direction * *distance, table.normal, table.normal, table.reflectance, {}};
  }
  if (!hit)
    return std::nullopt;
  return paper_spot(ray.origin + ray.direction * hit->distance, hit->normal, hit->facet_normal);
}

// Scattered radiance = scatter / pi * L * cos(spot) * cos(window) * area / distance^2, one point of the window a call.
Tracer::Lit Tracer::window_light(const Spot& spot, Pair random) const {
  if (!lighting_.window)
    return {};
  const auto& window = *lighting_.window;
  const Vec3 from = window.centre + window.across * (2 * random.u - 1) + window.up * (2 * random.v - 1);
  const Vec3 way = from - spot.point;
  const float distance = length(way);
  const Vec3 direction = way * (1 / distance);
  const bool front = dot(spot.facet_normal, direction) > 0;
  const float cosine = dot(spot.normal, direction) * (front ? 1.0F : -1.0F);
  if (cosine <= 0)
    return {};
  const Vec3 facing = cross(window.across, window.up) * 4.0F; // length = area
  const float share = cosine * std::abs(dot(facing, direction)) / (pi * distance * distance);
  const Vec3 open = (front ? spot.reflectance : spot.transmittance) * window.radiance * share;
  if (brightness(open) <= 0)
    return {};
  const Ray shadow{spot.point + spot.facet_normal * (front ? lift_mm : -lift_mm), direction};
  return {scene_.blocked(shadow, distance) ? Vec3{} : open, open};
}

Tracer::Scattered Tracer::scatter(const Spot& spot, Chance& chance) {
  const float total = brightness(spot.reflectance + spot.transmittance);
  const float through = total > 0 ? brightness(spot.transmittance) / total : 0;
  const bool back = chance.next().u < through;
  const float side = back ? -1.0F : 1.0F;
  Vec3 direction = scattered(spot.normal * side, chance.next());
  // The smooth normal leans away from the facet; what would start into the paper is turned out of it.
  const float depth = dot(direction, spot.facet_normal) * side;
  if (depth < 0)
    direction = unit(direction - spot.facet_normal * (2 * depth * side));
  return {{spot.point + spot.facet_normal * (side * lift_mm), direction},
          back ? spot.transmittance * (1 / through) : spot.reflectance * (1 / (1 - through))};
}

Vec3 Tracer::arriving(Ray ray, int bounces, Chance& chance) const {
  Vec3 sum, carried{1, 1, 1};
  for (int left = bounces;; --left) {
    const auto met = spot(ray);
    if (!met)
      return sum + carried * lighting_.sky.radiance(ray.direction);
    sum = sum + carried * window_light(*met, chance.next()).seen;
    if (left <= 1)
      return sum + carried * (met->reflectance + met->transmittance) * lighting_.sky.horizon * lighting_.remainder;
    const auto next = scatter(*met, chance);
    carried = carried * next.weight;
    ray = next.ray;
  }
}

Vec3 Tracer::direct(const Ray& ray, const Hit& hit, Chance& chance) const {
  const Vec3 point = ray.origin + ray.direction * hit.distance;
  return window_light(paper_spot(point, hit.normal, hit.facet_normal), chance.next()).seen;
}

Vec3 Tracer::gathered(Vec3 point, Vec3 normal, Vec3 facet_normal, Chance& chance) const {
  const auto first = scatter(paper_spot(point, normal, facet_normal), chance);
  return first.weight * arriving(first.ray, lighting_.bounces, chance);
}

std::optional<float> Tracer::table_distance(const Ray& ray) const {
  return lighting_.table ? lighting_.table->distance(ray) : std::nullopt;
}

// Normalised Blinn-Phong lobe: (n + 8) / (8 pi) cos^n. One point of the window a call.
Vec3 Tracer::mirrored_window(const Ray& ray, const Hit& hit, Vec3 normal, float exponent, Chance& chance) const {
  const Pair random = chance.next();
  if (!lighting_.window)
    return {};
  const auto& window = *lighting_.window;
  const Vec3 point = ray.origin + ray.direction * hit.distance;
  const Vec3 way = window.centre + window.across * (2 * random.u - 1) + window.up * (2 * random.v - 1) - point;
  const float distance = length(way);
  const Vec3 direction = way * (1 / distance);
  const float cosine = dot(normal, direction);
  if (cosine <= 0 || dot(hit.facet_normal, direction) <= 0)
    return {};
  const float half = std::max(0.0F, dot(normal, unit(direction - ray.direction)));
  const float lobe = (exponent + 8) / (8 * pi) * std::pow(half, exponent);
  const Vec3 facing = cross(window.across, window.up) * 4.0F; // length = area
  const Vec3 light = window.radiance * (lobe * cosine * std::abs(dot(facing, direction)) / (distance * distance));
  if (brightness(light) < 1e-4F || scene_.blocked({point + hit.facet_normal * lift_mm, direction}, distance))
    return {};
  return light;
}

Vec3 Tracer::table_shade(Vec3 point, Chance& chance) const {
  const Vec3 white{1, 1, 1};
  const Vec3 normal = lighting_.table ? lighting_.table->normal : Vec3{0, 0, 1};
  const Spot spot{point, normal, normal, white, {}};
  const Lit window = window_light(spot, chance.next());
  const Ray up{point + normal * lift_mm, scattered(normal, chance.next())};
  const Vec3 open = window.open + lighting_.sky.radiance(up.direction);
  const Vec3 seen = window.seen + arriving(up, 1, chance);
  return {seen.x / open.x, seen.y / open.y, seen.z / open.z};
}

} // namespace fanwright::picture
