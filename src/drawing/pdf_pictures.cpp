// Based on ISO 32000-1, section 7.4.4 (Flate with predictors), and the PNG specification (W3C, 2003), chapter 9
// (filters) and section 12.8 (choosing one per row by the least sum of absolute differences).
#include "drawing/pdf_pictures.h"

#include <zlib.h>

#include <array>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

namespace fanwright::drawing {

namespace {

constexpr std::size_t bytes_per_pixel = 3;

/// PNG's Paeth predictor: whichever of left, above and upper left is nearest to left + above - upper left.
int nearest_neighbour(int left, int above, int upper_left) {
  const int guess = left + above - upper_left;
  const int to_left = std::abs(guess - left), to_above = std::abs(guess - above);
  const int to_upper_left = std::abs(guess - upper_left);
  if (to_left <= to_above && to_left <= to_upper_left)
    return left;
  return to_above <= to_upper_left ? above : upper_left;
}

int predicted(int filter, int left, int above, int upper_left) {
  switch (filter) {
  case 1:
    return left;
  case 2:
    return above;
  case 3:
    return (left + above) / 2;
  case 4:
    return nearest_neighbour(left, above, upper_left);
  default:
    return 0;
  }
}

/// One row less its prediction, the filter's number in front; and how large the differences are in all.
std::pair<std::string, long> filtered_row(int filter, const std::uint8_t* row, const std::uint8_t* above,
                                          std::size_t bytes) {
  std::string out(1, static_cast<char>(filter));
  out.reserve(bytes + 1);
  long total = 0;
  for (std::size_t i = 0; i < bytes; ++i) {
    const bool has_left = i >= bytes_per_pixel;
    const int left = has_left ? row[i - bytes_per_pixel] : 0;
    const int up = above != nullptr ? above[i] : 0;
    const int upper_left = has_left && above != nullptr ? above[i - bytes_per_pixel] : 0;
    const auto difference = static_cast<std::uint8_t>(row[i] - predicted(filter, left, up, upper_left));
    total += difference < 128 ? difference : 256 - difference;
    out += static_cast<char>(difference);
  }
  return {out, total};
}

std::string filtered(const Image& image) {
  const std::size_t bytes = bytes_per_pixel * static_cast<std::size_t>(image.width_px);
  std::string rows;
  rows.reserve((bytes + 1) * static_cast<std::size_t>(image.height_px));
  const std::uint8_t* above = nullptr;
  for (int y = 0; y < image.height_px; ++y) {
    const std::uint8_t* row = image.rgb->data() + bytes * static_cast<std::size_t>(y);
    auto best = filtered_row(0, row, above, bytes);
    for (int filter = 1; filter <= 4; ++filter)
      if (auto other = filtered_row(filter, row, above, bytes); other.second < best.second)
        best = std::move(other);
    rows += best.first;
    above = row;
  }
  return rows;
}

std::string deflated(const std::string& bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::string out(size, '\0');
  compress2(reinterpret_cast<Bytef*>(out.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()),
            static_cast<uLong>(bytes.size()), Z_DEFAULT_COMPRESSION);
  out.resize(size);
  return out;
}

} // namespace

bool is_whole(const Image& image) {
  return image.width_px > 0 && image.height_px > 0 && image.rgb != nullptr &&
         image.rgb->size() ==
             bytes_per_pixel * static_cast<std::size_t>(image.width_px) * static_cast<std::size_t>(image.height_px);
}

QPDFObjectHandle Pictures::object(const Image& image, QPDF& document) {
  QPDFObjectHandle& known = known_[{image.rgb.get(), image.width_px, image.height_px}];
  if (known.isInitialized())
    return known;
  const std::string columns = std::to_string(image.width_px);
  QPDFObjectHandle stream = QPDFObjectHandle::newStream(&document);
  stream.replaceStreamData(
      deflated(filtered(image)), QPDFObjectHandle::newName("/FlateDecode"),
      QPDFObjectHandle::parse("<< /Predictor 15 /Colors 3 /BitsPerComponent 8 /Columns " + columns + " >>"));
  QPDFObjectHandle dictionary = stream.getDict();
  dictionary.replaceKey("/Type", QPDFObjectHandle::newName("/XObject"));
  dictionary.replaceKey("/Subtype", QPDFObjectHandle::newName("/Image"));
  dictionary.replaceKey("/Width", QPDFObjectHandle::newInteger(image.width_px));
  dictionary.replaceKey("/Height", QPDFObjectHandle::newInteger(image.height_px));
  dictionary.replaceKey("/ColorSpace", QPDFObjectHandle::newName("/DeviceRGB"));
  dictionary.replaceKey("/BitsPerComponent", QPDFObjectHandle::newInteger(8));
  return known = stream;
}

} // namespace fanwright::drawing
