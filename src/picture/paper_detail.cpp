#include "picture/paper_detail.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

// Sizes of fibres, flocks and flakes, mm, chosen by eye: pulp fibres are 1 to 3 mm long (common knowledge of the
// trade, no source).
constexpr float fibre_mm = 0.28F, fibre_length = 2.5F; // length as a multiple of the width
constexpr float flock_mm = 2.2F;                       // clouds in the sheet
constexpr float slope = 0.045F;                        // of the bump
constexpr float flake_mm = 0.26F, glitter_band_mm = 1.4F;

float lattice(int x, int z, std::uint32_t salt) {
  const auto bits = mixed(static_cast<std::uint32_t>(x) * 0x9e3779b9U + mixed(static_cast<std::uint32_t>(z) + salt));
  return static_cast<float>(bits >> 8) * 0x1p-24F;
}

// Smooth random height 0..1 over a unit lattice.
float bumps(float x, float z, std::uint32_t salt) {
  const float fx = std::floor(x), fz = std::floor(z);
  const int ix = static_cast<int>(fx), iz = static_cast<int>(fz);
  float u = x - fx, v = z - fz;
  u = u * u * (3 - 2 * u), v = v * v * (3 - 2 * v);
  const float low = lattice(ix, iz, salt) * (1 - u) + lattice(ix + 1, iz, salt) * u;
  const float high = lattice(ix, iz + 1, salt) * (1 - u) + lattice(ix + 1, iz + 1, salt) * u;
  return low * (1 - v) + high * v;
}

// Two crossing families of fibres, lying at an angle to the leaf's axes.
float fibres(float x, float z, std::uint32_t salt) {
  const float a = (0.92F * x + 0.39F * z) / fibre_mm, b = (-0.39F * x + 0.92F * z) / (fibre_mm * fibre_length);
  const float c = (0.80F * x - 0.60F * z) / (fibre_mm * fibre_length), d = (0.60F * x + 0.80F * z) / fibre_mm;
  return 0.5F * (bumps(a, b, salt) + bumps(c, d, salt + 1));
}

} // namespace

struct PaperDetail::Place {
  float x = 0, z = 0, to_edge = 1e6F;
  std::uint32_t salt = 0;
  Vec3 along_x, along_z; // of the opened sheet, about unit length
};

PaperDetail::PaperDetail(const Scene& scene, const Paper& paper, float pixel_mm)
    : scene_(scene), paper_(paper), pixel_mm_(pixel_mm) {}

PaperDetail::Place PaperDetail::place_of(const Hit& hit) const {
  const Surface& surface = scene_.surface();
  const auto& corners = scene_.corners(hit);
  Place place;
  place.to_edge = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const FlatPlace& flat = surface.flat[corners[i]];
    place.x += flat.x * hit.weights[i];
    place.z += flat.z * hit.weights[i];
    place.to_edge += flat.to_edge * hit.weights[i];
  }
  place.salt = mixed(2 * surface.flat[corners[0]].half_panel + static_cast<unsigned>(hit.side));
  const FlatPlace &a = surface.flat[corners[0]], &b = surface.flat[corners[1]], &c = surface.flat[corners[2]];
  const float bx = b.x - a.x, bz = b.z - a.z, cx = c.x - a.x, cz = c.z - a.z, area = bx * cz - bz * cx;
  if (std::abs(area) > 1e-6F) {
    const Vec3 to_b = surface.points[corners[1]] - surface.points[corners[0]];
    const Vec3 to_c = surface.points[corners[2]] - surface.points[corners[0]];
    place.along_x = (to_b * cz - to_c * bz) * (1 / area);
    place.along_z = (to_c * bx - to_b * cx) * (1 / area);
  }
  return place;
}

// The normal leans against the height's slope along the sheet.
Vec3 PaperDetail::bumped(const Place& place, const Hit& hit) const {
  const float shown = std::clamp(1.3F - pixel_mm_ / (2 * fibre_mm), 0.15F, 1.0F); // finer than a pixel: fades
  const float step = 0.25F * fibre_mm;
  const float here = fibres(place.x, place.z, place.salt);
  const float rise = slope * shown * fibre_mm / step * 4;
  const float dx = (fibres(place.x + step, place.z, place.salt) - here) * rise;
  const float dz = (fibres(place.x, place.z + step, place.salt) - here) * rise;
  return unit(hit.normal - place.along_x * dx - place.along_z * dz);
}

Vec3 PaperDetail::flake(const Tracer& tracer, const Ray& ray, const Hit& hit, const Place& place,
                        Chance& chance) const {
  const auto column = static_cast<int>(std::floor(place.x / flake_mm));
  const auto row = static_cast<int>(std::floor(place.z / flake_mm));
  // Flakes thin out towards the paper's inside.
  const float thinned = paper_.glitter * std::clamp(2 - 2 * place.to_edge / glitter_band_mm, 0.0F, 1.0F);
  if (lattice(column, row, place.salt + 7) >= thinned)
    return {};
  const float lean = 0.7F * std::sqrt(lattice(column, row, place.salt + 8));
  const float turn = 2 * std::numbers::pi_v<float> * lattice(column, row, place.salt + 9);
  const Vec3 normal =
      unit(hit.normal + place.along_x * (lean * std::cos(turn)) + place.along_z * (lean * std::sin(turn)));
  const Vec3 mirrored = ray.direction - normal * (2 * dot(ray.direction, normal));
  const Vec3 tint = paper_.colour * 0.5F + Vec3{0.5F, 0.5F, 0.5F};
  return tint * (tracer.lighting().sky.radiance(mirrored) * 0.2F +
                 tracer.mirrored_window(ray, hit, normal, 120, chance) * 0.25F);
}

Detail PaperDetail::at(const Tracer& tracer, const Ray& ray, const Hit& hit, Chance& chance) const {
  Detail detail;
  if (scene_.surface().flat.empty())
    return detail;
  const Place place = place_of(hit);
  const Vec3 normal = hit.on_edge ? hit.normal : bumped(place, hit);
  if (const auto& window = tracer.lighting().window) {
    const Vec3 towards = unit(window->centre - (ray.origin + ray.direction * hit.distance));
    const float smooth = std::abs(dot(hit.normal, towards));
    const float lit = std::abs(dot(normal, towards));
    detail.shade = std::clamp((lit + 0.25F) / (smooth + 0.25F), 0.6F, 1.5F); // the sky evens out grazing light
  }
  detail.shade *= 1 + 0.05F * (bumps(place.x / flock_mm, place.z / flock_mm, place.salt + 3) - 0.5F);
  if (paper_.sheen > 0) {
    const Vec3 tint = paper_.colour * 0.6F + Vec3{0.4F, 0.4F, 0.4F};
    detail.shine = tint * tracer.mirrored_window(ray, hit, normal, 14, chance) * (0.22F * paper_.sheen);
  }
  if (paper_.glitter > 0 && place.to_edge < glitter_band_mm)
    detail.shine = detail.shine + flake(tracer, ray, hit, place, chance);
  return detail;
}

} // namespace fanwright::picture
