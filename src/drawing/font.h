// The built-in font through Pango, whatever fonts the machine has. For the files of this folder only.
#pragma once

#include <cairo.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace fanwright::drawing {

inline constexpr double points_per_mm = 72.0 / 25.4; ///< ISO 32000-1, 8.3.2.3: a PDF unit is 1/72 in

/// Gives C objects of the text libraries back.
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

/// The font, open; belongs to one thread.
struct Font {
  Owned<FcConfig> files;
  Owned<PangoFontMap> map;
  Owned<PangoContext> context;
};

/// The built-in font, unhinted, or nothing when its files are not installed.
std::optional<Font> open_font();

/// Path of the file that must be there.
std::string_view font_file();

/// The words as valid UTF-8 without control characters.
std::string printable(std::string_view words);

/// Makes `layout` hold one line of printable `words`, sized in points.
void set_line(PangoLayout* layout, std::string_view words, double size_mm, bool bold);

} // namespace fanwright::drawing
