// Pictures of figures with fans.
#include "picture/picture.h"
#include "picture/winged_figure.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fanwright::picture {
namespace {

/// What paper covers in the picture, in pixels.
struct Covered {
  int left = 1 << 20, right = -1, top = 1 << 20, bottom = -1;
};

Covered covered(const Pixels& pixels) {
  Covered found;
  for (int y = 0; y < pixels.height_px; ++y)
    for (int x = 0; x < pixels.width_px; ++x)
      if (pixels.alpha[static_cast<std::size_t>(y * pixels.width_px + x)] > 127)
        found = {std::min(found.left, x), std::max(found.right, x), std::min(found.top, y), std::max(found.bottom, y)};
  return found;
}

TEST(fan_paper, pictures_frame_the_whole_figure) {
  const sample::Figure& figure = sample::winged();
  Piece piece{&figure.form, sample::leaves, 0.2, {}, sample::papers_of(figure)};
  Style style;
  look_from(View::front, style);
  style.width_px = style.height_px = 160;
  style.samples = 1;
  style.draft = true;
  style.background = Background::transparent;
  const auto pixels = std::get<Pixels>(render({piece}, style));
  const Covered found = covered(pixels);
  // The figure is higher than wide and fills 80 % of the frame's height (camera.cpp); it stands in the middle.
  EXPECT_NEAR(found.bottom - found.top, 0.8 * 160, 2);
  EXPECT_NEAR(found.left + found.right, 159, 4);
  // Seen from 4 degrees above, its foot looks deeper and nearer than the wings: by less than a tenth.
  const double wide = figure.seated.figure.width_mm / figure.seated.figure.height_mm * 0.8 * 160;
  EXPECT_GT(found.right - found.left, 0.9 * wide);
  EXPECT_LE(found.right - found.left, wide);
}

} // namespace
} // namespace fanwright::picture
