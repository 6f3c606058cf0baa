#include "drawing/lettering.h"

#include <cairo-pdf.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <memory>

namespace fanwright::drawing {

namespace {

constexpr double points_per_mm = 72.0 / 25.4;
constexpr const char* font_family = "DejaVu Sans";
constexpr const char* font_files[] = {FANWRIGHT_FONT_FOLDER "/DejaVuSans.ttf",
                                      FANWRIGHT_FONT_FOLDER "/DejaVuSans-Bold.ttf"};

struct Release {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(FcConfig* config) const { FcConfigDestroy(config); }
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
  void operator()(PangoFontMap* map) const { g_object_unref(map); }
  void operator()(PangoContext* context) const { g_object_unref(context); }
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
template <typename T> using Owned = std::unique_ptr<T, Release>;

/// A font configuration that knows our two files and nothing of the machine.
Owned<FcConfig> private_fonts() {
  Owned<FcConfig> config(FcConfigCreate());
  for (const char* file : font_files)
    if (FcConfigAppFontAddFile(config.get(), reinterpret_cast<const FcChar8*>(file)) != FcTrue)
      return nullptr;
  return config;
}

std::string printable(const std::string& words) {
  std::string text;
  for (const char letter : words)
    if (static_cast<unsigned char>(letter) >= 0x20)
      text += letter;
  const std::unique_ptr<char, decltype(&g_free)> valid(g_utf8_make_valid(text.c_str(), -1), g_free);
  return valid.get();
}

void show(cairo_t* cairo, PangoContext* context, const Text& line) {
  const Owned<PangoFontDescription> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), font_family);
  pango_font_description_set_weight(font.get(), line.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), line.size_mm * points_per_mm * PANGO_SCALE);
  const Owned<PangoLayout> layout(pango_layout_new(context));
  pango_layout_set_font_description(layout.get(), font.get());
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  pango_layout_set_text(layout.get(), printable(line.words).c_str(), -1);
  int width = 0, height = 0;
  pango_layout_get_size(layout.get(), &width, &height);
  const double share = line.align == Align::left ? 0.0 : line.align == Align::centre ? 0.5 : 1.0;
  const double baseline = static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE;
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
  const Owned<FcConfig> fonts = private_fonts();
  if (!fonts)
    return Failure{std::string("The font file ") + font_files[0] +
                   " cannot be read; install the package fonts-dejavu-core and try again."};
  const Owned<PangoFontMap> map(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map.get()), fonts.get());
  const Owned<PangoContext> context(pango_font_map_create_context(map.get()));
  const Owned<cairo_font_options_t> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context.get(), options.get());

  std::string bytes;
  const Owned<cairo_surface_t> surface(cairo_pdf_surface_create_for_stream(append, &bytes, 10, 10));
  const Owned<cairo_t> cairo(cairo_create(surface.get()));
  for (const LetteredPage& page : pages) {
    cairo_pdf_surface_set_size(surface.get(), page.width_mm * points_per_mm, page.height_mm * points_per_mm);
    for (const Text& line : page.lines)
      show(cairo.get(), context.get(), line);
    cairo_show_page(cairo.get());
  }
  cairo_surface_finish(surface.get());
  if (const cairo_status_t status = cairo_surface_status(surface.get()); status != CAIRO_STATUS_SUCCESS)
    return Failure{std::string("The text of the page could not be set: ") + cairo_status_to_string(status) + "."};
  return bytes;
}

} // namespace fanwright::drawing
