#include "drawing/font.h"

#include <pango/pangofc-fontmap.h>

#include <array>

namespace fanwright::drawing {

namespace {

constexpr const char* font_family = "DejaVu Sans";
constexpr std::array<const char*, 2> font_files = {FANWRIGHT_FONT_FOLDER "/DejaVuSans.ttf",
                                                   FANWRIGHT_FONT_FOLDER "/DejaVuSans-Bold.ttf"};

/// A font configuration that knows our two files and nothing of the machine.
Owned<FcConfig> private_fonts() {
  Owned<FcConfig> config(FcConfigCreate());
  for (const char* file : font_files)
    if (FcConfigAppFontAddFile(config.get(), reinterpret_cast<const FcChar8*>(file)) != FcTrue)
      return nullptr;
  return config;
}

} // namespace

std::string_view font_file() { return font_files[0]; }

std::optional<Font> open_font() {
  Font font{private_fonts(), nullptr, nullptr};
  if (!font.files)
    return std::nullopt;
  font.map.reset(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(font.map.get()), font.files.get());
  font.context.reset(pango_font_map_create_context(font.map.get()));
  const Owned<cairo_font_options_t> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(font.context.get(), options.get());
  pango_context_set_round_glyph_positions(font.context.get(), FALSE); // else letters stand on whole points
  return font;
}

std::string printable(std::string_view words) {
  std::string text;
  for (const char letter : words)
    if (static_cast<unsigned char>(letter) >= 0x20 && letter != 0x7f)
      text += letter;
  const std::unique_ptr<char, decltype(&g_free)> valid(g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())),
                                                       g_free);
  return valid.get();
}

void set_line(PangoLayout* layout, std::string_view words, double size_mm, bool bold) {
  const Owned<PangoFontDescription> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), font_family);
  pango_font_description_set_weight(font.get(), bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), size_mm * points_per_mm * PANGO_SCALE);
  pango_layout_set_font_description(layout, font.get());
  pango_layout_set_single_paragraph_mode(layout, TRUE);
  pango_layout_set_text(layout, words.data(), static_cast<int>(words.size()));
}

} // namespace fanwright::drawing
