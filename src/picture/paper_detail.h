// What the eye sees on paper from near: fibres that catch the light, metallic sheen, glitter along the outer edge.
#pragma once

#include "picture/papers.h"
#include "picture/trace.h"

namespace fanwright::picture {

struct Detail {
  float shade = 1; ///< factor on the evenly scattered light
  Vec3 shine;      ///< radiance added by mirroring
};

class PaperDetail {
public:
  /// `pixel_mm`: size of a pixel on the paper; finer detail than that is left out. The scene must outlive this.
  PaperDetail(const Scene& scene, const Paper& paper, float pixel_mm);

  Detail at(const Tracer& tracer, const Ray& ray, const Hit& hit, Chance& chance) const;

private:
  struct Place;
  Place place_of(const Hit& hit) const;
  Vec3 bumped(const Place& place, const Hit& hit) const;
  Vec3 flake(const Tracer& tracer, const Ray& ray, const Hit& hit, const Place& place, Chance& chance) const;

  const Scene& scene_;
  Paper paper_;
  float pixel_mm_;
};

} // namespace fanwright::picture
