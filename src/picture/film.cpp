#include "picture/film.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr std::array<float, 3> spline{3 / 8.0F, 1 / 4.0F, 1 / 16.0F}; // weights of the B3 spline, from the middle
constexpr float off_sheet_mm = 0.35F; // out of the sheet's plane: a cell of the ornament is some millimetres deep
constexpr float no_grain = 1e-7F;     // variance; its root is a tenth of the darkest step of an 8-bit picture
constexpr float least_cover = 0.2F;   // below it a pixel shows too little of a sheet to lend its light

struct Evened {
  Vec3 light;
  float spread;
};

float brightness(Vec3 c) { return (c.x + c.y + c.z) / 3; }

// Likeness 0..1 of two pixels `dx`, `dy` apart: facing alike, in one plane, and as bright as their grain allows.
float likeness(const FilmPixel& here, const FilmPixel& there, float dx_mm, float dy_mm, float tolerance) {
  const float facing = dot(here.normal, there.normal);
  if (facing < 0.8F)
    return 0;
  const Vec3 way{dx_mm, -dy_mm, here.distance - there.distance};
  const float off = dot(here.normal, way) / off_sheet_mm;
  const float unlike = std::abs(brightness(here.light) - brightness(there.light)) / tolerance;
  const float squared = facing * facing, fourth = squared * squared, eighth = fourth * fourth;
  return eighth * eighth * eighth * std::exp(-off * off - unlike);
}

Evened evened(const Film& film, int x, int y, int step, float pixel_mm) {
  const FilmPixel& here = film.at(x, y);
  const float tolerance = 2.5F * std::sqrt(std::max(here.spread, 0.0F)) + 0.002F;
  Vec3 sum;
  float weights = 0, spread = 0;
  for (int row = -2; row <= 2; ++row)
    for (int column = -2; column <= 2; ++column) {
      const int px = x + column * step, py = y + row * step;
      if (px < 0 || py < 0 || px >= film.width() || py >= film.height())
        continue;
      const FilmPixel& there = film.at(px, py);
      if (there.cover < least_cover && &there != &here)
        continue;
      const auto near =
          spline[static_cast<std::size_t>(std::abs(row))] * spline[static_cast<std::size_t>(std::abs(column))];
      const float weight = near * likeness(here, there, static_cast<float>(column * step) * pixel_mm,
                                           static_cast<float>(row * step) * pixel_mm, tolerance);
      sum = sum + there.light * weight;
      spread += there.spread * weight * weight;
      weights += weight;
    }
  return {sum * (1 / weights), spread / (weights * weights)};
}

} // namespace

Film::Film(int width_px, int height_px)
    : width_(width_px), height_(height_px),
      pixels_(static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px)) {}

bool Film::even_out(float pixel_mm, int passes, const Crew& crew) {
  std::vector<Evened> next(pixels_.size());
  Crew quiet = crew;
  quiet.progress = nullptr;
  for (int pass = 0; pass < passes; ++pass) {
    const auto even_row = [&](int y) {
      for (int x = 0; x < width_; ++x)
        next[index(x, y)] = at(x, y).cover > 0 && at(x, y).spread > no_grain ? evened(*this, x, y, 1 << pass, pixel_mm)
                                                                             : Evened{at(x, y).light, at(x, y).spread};
    };
    if (!work_through(height_, quiet, even_row))
      return false;
    for (std::size_t i = 0; i < pixels_.size(); ++i)
      pixels_[i].light = next[i].light, pixels_[i].spread = next[i].spread;
  }
  return true;
}

} // namespace fanwright::picture
