#include "traced/source.h"

#include "traced/bitmap.h"
#include "traced/picture_areas.h"
#include "traced/svg_areas.h"
#include "traced/svg_values.h"

#include <array>

namespace fanwright::traced {
namespace {

using namespace std::string_view_literals;

struct Signature {
  std::string_view begins, name;
};
/// First bytes of files that are often mistaken for drawings (from their own standards).
constexpr std::array<Signature, 9> others = {{{"%PDF"sv, "a PDF"},
                                              {"GIF8"sv, "a GIF picture"},
                                              {"RIFF"sv, "a WebP picture or a sound"},
                                              {"BM"sv, "a BMP picture"},
                                              {"II*\0"sv, "a TIFF picture"},
                                              {"MM\0*"sv, "a TIFF picture"},
                                              {"PK\3\4"sv, "a zip archive or an office document"},
                                              {"\x1f\x8b"sv, "compressed; unpack it first"},
                                              {"%!PS"sv, "PostScript"}}};

bool begins(std::string_view bytes, std::string_view with) { return bytes.substr(0, with.size()) == with; }

bool looks_like_xml(std::string_view bytes) {
  if (begins(bytes, "\xff\xfe"sv) || begins(bytes, "\xfe\xff"sv))
    return true; // UTF-16; the XML reader looks at it
  if (begins(bytes, "\xef\xbb\xbf"sv))
    bytes.remove_prefix(3);
  const std::size_t first = bytes.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && bytes[first] == '<';
}

std::variant<Source, std::string> from_svg(std::string_view bytes) {
  auto read = read_svg(bytes);
  if (auto* sentence = std::get_if<std::string>(&read))
    return std::move(*sentence);
  const auto& drawing = std::get<SvgDrawing>(read);
  auto areas = painted(drawing);
  if (auto* sentence = std::get_if<std::string>(&areas))
    return std::move(*sentence);
  auto& result = std::get<Painted>(areas);
  Source source;
  source.kind = "SVG";
  source.page = {drawing.width, drawing.height, 0};
  source.areas = std::move(result.areas);
  source.notes = std::move(result.notes);
  if (drawing.physical)
    source.mm = mm_per_pixel;
  if (source.areas.size() > most_rings)
    return "The SVG file shows " + std::to_string(source.areas.size()) +
           " separate pieces; at most 1000 are read: keep the silhouette alone.";
  if (!source.areas.empty())
    return source;
  std::string sentence = "The SVG file shows no filled shape and no closed outline.";
  for (const std::string& note : source.notes)
    sentence += " " + note;
  return sentence;
}

std::variant<Source, std::string> from_picture(std::string_view bytes) {
  auto read = is_png(bytes) ? read_png(bytes) : read_jpeg(bytes);
  if (auto* sentence = std::get_if<std::string>(&read))
    return std::move(*sentence);
  const auto& picture = std::get<Picture>(read);
  auto areas = standing_out(picture);
  if (auto* sentence = std::get_if<std::string>(&areas))
    return std::move(*sentence);
  auto& result = std::get<StandingOut>(areas);
  Source source;
  source.kind = is_png(bytes) ? "PNG" : "JPEG";
  const double height = picture.height;
  source.page = {static_cast<double>(picture.width), height, height};
  source.areas = std::move(result.areas);
  source.notes = std::move(result.notes);
  source.grain = result.grain;
  return source;
}

} // namespace

std::variant<Source, std::string> read_source(std::string_view bytes) {
  if (bytes.empty())
    return "The file is empty; export or save the drawing anew.";
  if (is_png(bytes) || is_jpeg(bytes))
    return from_picture(bytes);
  for (const Signature& other : others)
    if (begins(bytes, other.begins))
      return "The file is " + std::string(other.name) + "; give an SVG drawing, or a PNG or JPEG picture.";
  if (looks_like_xml(bytes))
    return from_svg(bytes);
  return "The file is no drawing; give an SVG drawing, or a PNG or JPEG picture.";
}

} // namespace fanwright::traced
