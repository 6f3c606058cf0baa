#include "picture/ruler.h"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>

namespace fanwright::picture {
namespace {

constexpr double breadth_mm = 24, texels_per_mm = 6;

using Image = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Pen = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

// Strokes of a digit on a field 2 wide and 4 high, y down: seven bars, as (from, to).
struct Bar {
  double x0, y0, x1, y1;
};
constexpr std::array<Bar, 7> bars{
    {{0, 0, 2, 0}, {2, 0, 2, 2}, {2, 2, 2, 4}, {0, 4, 2, 4}, {0, 2, 0, 4}, {0, 0, 0, 2}, {0, 2, 2, 2}}};
constexpr std::array<unsigned, 10> bars_of_digit{0x3F, 0x06, 0x5B, 0x4F, 0x66, 0x6D, 0x7D, 0x07, 0x7F, 0x6F};

void draw_number(cairo_t* pen, int number, double middle_mm, double top_mm, double height_mm) {
  const std::string digits = std::to_string(number);
  const double unit = height_mm / 4;
  double x = middle_mm - (3 * static_cast<double>(digits.size()) - 1) * unit / 2;
  for (char digit : digits) {
    for (std::size_t b = 0; b < bars.size(); ++b)
      if (bars_of_digit[static_cast<std::size_t>(digit - '0')] >> b & 1U) {
        cairo_move_to(pen, x + bars[b].x0 * unit, top_mm + bars[b].y0 * unit);
        cairo_line_to(pen, x + bars[b].x1 * unit, top_mm + bars[b].y1 * unit);
      }
    x += 3 * unit;
  }
  cairo_set_line_width(pen, 0.9);
  cairo_stroke(pen);
}

void draw(cairo_t* pen, int length_mm) {
  cairo_scale(pen, texels_per_mm, texels_per_mm);
  cairo_set_line_cap(pen, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
  for (int mm = 0; mm <= length_mm; ++mm) {
    const double x = std::clamp<double>(mm, 0.2, length_mm - 0.2);
    cairo_move_to(pen, x, 0);
    cairo_line_to(pen, x, mm % 50 == 0 ? 10.5 : mm % 10 == 0 ? 8 : mm % 5 == 0 ? 6.5 : 4);
    cairo_set_line_width(pen, mm % 10 == 0 ? 0.5 : 0.28);
    cairo_stroke(pen);
  }
  const int numbered_mm = length_mm > 200 ? 50 : 10;
  for (int mm = numbered_mm; mm < length_mm; mm += numbered_mm)
    draw_number(pen, mm / 10, mm, 12, 8);
}

} // namespace

Ruler::Ruler(Vec3 from, Vec3 along, Vec3 away, double length_mm)
    : from_(from), along_(along), away_(away),
      width_(static_cast<int>(std::ceil(std::clamp(length_mm, 10.0, 5000.0) / 10) * 10 * texels_per_mm)),
      height_(static_cast<int>(breadth_mm * texels_per_mm)) {
  const Image image(cairo_image_surface_create(CAIRO_FORMAT_A8, width_, height_), cairo_surface_destroy);
  const Pen pen(cairo_create(image.get()), cairo_destroy);
  draw(pen.get(), static_cast<int>(width_ / texels_per_mm));
  cairo_surface_flush(image.get());
  ink_.assign(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_), 0);
  const auto* data = cairo_image_surface_get_data(image.get()); // null when out of memory: a blank ruler
  for (int row = 0; data && row < height_; ++row)
    std::copy_n(data + static_cast<std::ptrdiff_t>(row) * cairo_image_surface_get_stride(image.get()), width_,
                ink_.begin() + static_cast<std::ptrdiff_t>(row) * width_);
}

bool Ruler::covers(Vec3 point) const {
  const float x = dot(point - from_, along_), y = dot(point - from_, away_);
  return x >= 0 && y >= 0 && x < static_cast<float>(width_ / texels_per_mm) && y < static_cast<float>(breadth_mm);
}

Vec3 Ruler::reflectance(Vec3 point) const {
  const auto scale = static_cast<float>(texels_per_mm);
  const int column = std::clamp(static_cast<int>(dot(point - from_, along_) * scale), 0, width_ - 1);
  const int row = std::clamp(static_cast<int>(dot(point - from_, away_) * scale), 0, height_ - 1);
  const auto ink =
      static_cast<float>(
          ink_[static_cast<std::size_t>(row) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(column)]) /
      255;
  const Vec3 wood{0.80F, 0.62F, 0.38F}, mark{0.06F, 0.05F, 0.05F};
  return wood * (1 - ink) + mark * ink;
}

std::vector<Vec3> Ruler::corners() const {
  const Vec3 right = along_ * static_cast<float>(width_ / texels_per_mm), far = away_ * static_cast<float>(breadth_mm);
  return {from_, from_ + right, from_ + far, from_ + right + far};
}

} // namespace fanwright::picture
