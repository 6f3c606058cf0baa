// Opened forms known in closed form, for tests of pictures. Invented shapes, no paper behind them.
#pragma once

#include "opened/opened.h"

#include <cmath>
#include <numbers>

namespace fanwright::picture::sample {

/// Half-panel over a grid: `radius(z)` mm is its outer edge, `share(z)` in 0..1 its place between the walls.
template <class Radius, class Share>
opened::Form form(int leaves, double opening_deg, double height_mm, int across, int up, Radius radius, Share share) {
  opened::Form form;
  form.wedge_rad = opening_deg * std::numbers::pi / 180 / (2 * leaves);
  form.height_mm = height_mm;
  for (int j = 0; j <= up; ++j)
    for (int i = 0; i <= across; ++i) {
      const double z = height_mm * j / up, r = radius(z) * i / across;
      const double angle = form.wedge_rad * share(z);
      form.mesh.points.push_back({r * std::cos(angle), r * std::sin(angle), z});
      form.mesh.flat.push_back({r, z});
    }
  for (int j = 0; j < up; ++j)
    for (int i = 0; i < across; ++i) {
      const int a = j * (across + 1) + i, b = a + across + 1;
      form.mesh.triangles.push_back({a, a + 1, b + 1});
      form.mesh.triangles.push_back({a, b + 1, b});
    }
  return form;
}

/// A pear that swings from wall to wall every `spacing_mm`.
inline opened::Form pear(int leaves = 46, double opening_deg = 360, int across = 24, int up = 80) {
  const double height = 150, spacing = 14;
  return form(
      leaves, opening_deg, height, across, up,
      [=](double z) {
        const double t = z / height;
        const double body = std::sqrt(std::max(0.0, 1 - std::pow((t - 0.33) / 0.37, 2)));
        const double neck = 0.46 * std::sqrt(std::max(0.0, 1 - std::pow((t - 0.62) / 0.385, 2)));
        return 56 * std::max({body, neck, 0.12});
      },
      [=](double z) { return 0.5 - 0.5 * std::cos(std::numbers::pi * z / spacing); });
}

} // namespace fanwright::picture::sample
