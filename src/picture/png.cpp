#include "picture/picture.h"

#include <cairo.h>

#include <memory>

namespace fanwright::picture {
namespace {

using CairoImage = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

// Cairo keeps a pixel as a native 32-bit 0x00rrggbb.
void fill(cairo_surface_t* image, const Pixels& pixels) {
  auto* data = cairo_image_surface_get_data(image);
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(image));
  const auto width = static_cast<std::size_t>(pixels.width_px);
  for (std::size_t y = 0; y < static_cast<std::size_t>(pixels.height_px); ++y) {
    auto* row = reinterpret_cast<std::uint32_t*>(data + y * stride);
    for (std::size_t x = 0; x < width; ++x) {
      const auto* rgb = &pixels.rgb[3 * (y * width + x)];
      row[x] = static_cast<std::uint32_t>(rgb[0]) << 16 | static_cast<std::uint32_t>(rgb[1]) << 8 | rgb[2];
    }
  }
  cairo_surface_mark_dirty(image);
}

} // namespace

std::optional<std::string> write_png(const Pixels& pixels, const std::filesystem::path& path) {
  const CairoImage image(cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels.width_px, pixels.height_px),
                         cairo_surface_destroy);
  auto status = cairo_surface_status(image.get());
  if (status == CAIRO_STATUS_SUCCESS) {
    fill(image.get(), pixels);
    status = cairo_surface_write_to_png(image.get(), path.c_str());
  }
  if (status == CAIRO_STATUS_SUCCESS)
    return std::nullopt;
  return "The picture " + path.string() + " cannot be written (" + cairo_status_to_string(status) +
         "); check the folder and the free space.";
}

} // namespace fanwright::picture
