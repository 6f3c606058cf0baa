#include "drawing/lettering.h"

#include "drawing/font.h"

#include <cairo-pdf.h>

namespace fanwright::drawing {

namespace {

void show(cairo_t* cairo, PangoContext* context, const Text& line) {
  const Owned<PangoLayout> layout(pango_layout_new(context));
  set_line(layout.get(), printable(line.words), line.size_mm, line.bold);
  int width = 0, height = 0;
  pango_layout_get_size(layout.get(), &width, &height);
  const double share = line.align == Align::left ? 0.0 : line.align == Align::centre ? 0.5 : 1.0;
  const double baseline = static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE;
  cairo_set_source_rgb(cairo, line.colour.red, line.colour.green, line.colour.blue);
  cairo_move_to(cairo, line.baseline.x * points_per_mm - share * width / PANGO_SCALE,
                line.baseline.y * points_per_mm - baseline);
  pango_cairo_show_layout(cairo, layout.get());
}

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

} // namespace

std::variant<std::string, Failure> lettering(const std::vector<LetteredPage>& pages) {
  const std::optional<Font> font = open_font();
  if (!font)
    return Failure{"The font file " + std::string(font_file()) +
                   " cannot be read; install the package fonts-dejavu-core and try again."};
  std::string bytes;
  const Owned<cairo_surface_t> surface(cairo_pdf_surface_create_for_stream(append, &bytes, 10, 10));
  const Owned<cairo_t> cairo(cairo_create(surface.get()));
  for (const LetteredPage& page : pages) {
    cairo_pdf_surface_set_size(surface.get(), page.width_mm * points_per_mm, page.height_mm * points_per_mm);
    for (const Text& line : page.lines)
      show(cairo.get(), font->context.get(), line);
    cairo_show_page(cairo.get());
  }
  cairo_surface_finish(surface.get());
  if (const cairo_status_t status = cairo_surface_status(surface.get()); status != CAIRO_STATUS_SUCCESS)
    return Failure{std::string("The text of the page could not be set: ") + cairo_status_to_string(status) + "."};
  return bytes;
}

} // namespace fanwright::drawing
