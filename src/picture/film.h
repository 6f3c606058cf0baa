// The picture while it is being made: the paper's light kept apart from its fine detail, so that grain can be taken
// out of the one without blurring the other.
#pragma once

#include "picture/parallel.h"
#include "picture/vec3.h"

#include <cstdint>
#include <vector>

namespace fanwright::picture {

struct FilmPixel {
  Vec3 light;         ///< mean radiance of the paper in it
  float spread = 0;   ///< variance of that mean's brightness
  float detail = 1;   ///< factor on the light
  float cover = 0;    ///< share covered by paper
  Vec3 rest;          ///< radiance added: background and shine, already weighed by their shares
  Vec3 normal;        ///< mean normal of the paper: to the right, up, towards the eye
  float distance = 0; ///< of the paper from the eye, mm
};

class Film {
public:
  Film(int width_px, int height_px);

  FilmPixel& at(int x, int y) { return pixels_[index(x, y)]; }
  const FilmPixel& at(int x, int y) const { return pixels_[index(x, y)]; }
  int width() const { return width_; }
  int height() const { return height_; }

  /// Evens out the paper's light between pixels that show the same sheet; `pixel_mm` is a pixel's size on the paper.
  /// Based on the edge-avoiding a-trous wavelet filter of Dammertz et al., High Performance Graphics 2010, steered by
  /// each pixel's own variance. False when cancelled.
  bool even_out(float pixel_mm, int passes, const Crew& crew);

private:
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x);
  }

  int width_, height_;
  std::vector<FilmPixel> pixels_;
};

} // namespace fanwright::picture
