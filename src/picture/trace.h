// Light reaching the eye along a ray: one window by direct sampling, the sky and paper-to-paper light by cosine-sampled
// bounces (path tracing). All radiances are linear-light RGB in units of the picture's white.
#pragma once

#include "picture/chance.h"
#include "picture/scene.h"

#include <optional>

namespace fanwright::picture {

/// Paper scatters evenly to both sides.
struct PaperLook {
  Vec3 reflectance;   ///< share thrown back, 0..1 per channel
  Vec3 transmittance; ///< share let through, 0..1 per channel; reflectance + transmittance <= 1
};

struct Sky {
  Vec3 zenith, horizon; ///< radiance straight up and level
  Vec3 radiance(Vec3 direction) const;
};

/// A rectangle of even radiance that shines to both sides; seen by the paper only, not by the eye.
struct Window {
  Vec3 centre;     ///< mm
  Vec3 across, up; ///< from the centre to the middles of two sides, mm, at right angles
  Vec3 radiance;
};

/// The plane behind the paper: a level table, or a wall.
struct Table {
  Vec3 reflectance;
  Vec3 point{}, normal{0, 0, 1}; ///< a point of the plane, mm, and its unit normal on the paper's side

  /// Distance along a ray that meets the plane from the paper's side.
  std::optional<float> distance(const Ray& ray) const;
};

struct Lighting {
  Sky sky;
  std::optional<Window> window;
  std::optional<Table> table;
  int bounces = 2;        ///< how often light is followed from paper to paper
  float remainder = 0;    ///< radiance, as a share of the level sky, that stands for all later bounces
  std::uint32_t seed = 0; ///< of all chance
};

class Tracer {
public:
  /// All references must outlive the tracer.
  Tracer(const Scene& scene, const PaperLook& paper, const Lighting& lighting);

  /// Radiance the paper sends back along a ray: the window's light scattered once.
  Vec3 direct(const Ray& ray, const Hit& hit, Chance& chance) const;

  /// One sample of all other light that the paper scatters at a point, on the side its unit normal points to.
  Vec3 gathered(Vec3 point, Vec3 normal, Vec3 facet_normal, Chance& chance) const;

  /// The window mirrored by a glossy layer: Blinn's lobe of `exponent` about `normal`, sheen 1. One sample.
  Vec3 mirrored_window(const Ray& ray, const Hit& hit, Vec3 normal, float exponent, Chance& chance) const;

  std::optional<float> table_distance(const Ray& ray) const;
  const Lighting& lighting() const { return lighting_; }
  std::uint32_t seed() const { return lighting_.seed; }

  /// Light on the table at a point as a share of what it would be without the ornament, 1 where nothing is in the way.
  Vec3 table_shade(Vec3 point, Chance& chance) const;

private:
  struct Spot;
  struct Lit;
  struct Scattered;
  static Scattered scatter(const Spot& spot, Chance& chance);
  std::optional<Spot> spot(const Ray& ray) const;
  Spot paper_spot(Vec3 point, Vec3 normal, Vec3 facet_normal) const;
  Lit window_light(const Spot& spot, Pair random) const;
  Vec3 arriving(Ray ray, int bounces, Chance& chance) const;

  const Scene& scene_;
  const PaperLook& paper_;
  const Lighting& lighting_;
};

} // namespace fanwright::picture
