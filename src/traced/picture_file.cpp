#include "traced/picture_file.h"

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstring>

#include <jpeglib.h>

#include <jerror.h>
#include <png.h>

namespace fanwright::traced {
namespace {

using namespace std::string_view_literals;

/// `kind`: of the pictures for which `most` holds.
std::string too_large(double width, double height, double most, const char* kind) {
  char text[200];
  std::snprintf(text, sizeof text,
                "The picture has %.0f x %.0f pixels; at most %.0f million are read of %s: save it smaller, 3000 pixels "
                "high are plenty.",
                width, height, most / 1e6, kind);
  return text;
}

std::uint32_t number_at(std::string_view bytes, std::size_t at, int count, bool big_endian) {
  std::uint32_t value = 0;
  for (int k = 0; k < count; ++k) {
    const std::size_t place = at + static_cast<std::size_t>(big_endian ? k : count - 1 - k);
    value = value << 8 | static_cast<unsigned char>(bytes[place]);
  }
  return value;
}

/// The eXIf chunk (PNG 3, section 11.3.5.1) before the picture's data; empty when there is none.
std::string_view exif_of_png(std::string_view bytes) {
  for (std::size_t at = 8; at + 12 <= bytes.size();) {
    const std::size_t length = number_at(bytes, at, 4, true);
    const std::string_view type = bytes.substr(at + 4, 4);
    if (type == "IDAT" || length > bytes.size() - at - 12)
      return {};
    if (type == "eXIf")
      return bytes.substr(at + 8, length);
    at += 12 + length;
  }
  return {};
}

struct JpegFault {
  jpeg_error_mgr manager; // first, so that libjpeg's pointer is ours too
  std::jmp_buf back;
  bool cut_short;
  bool many_scans;
};

[[noreturn]] void give_up(j_common_ptr info) { std::longjmp(reinterpret_cast<JpegFault*>(info->err)->back, 1); }

/// What is missing of a picture would be made up, which may take long: its header says how large it is.
void note(j_common_ptr info, int level) {
  auto* fault = reinterpret_cast<JpegFault*>(info->err);
  if (level >= 0 || (fault->manager.msg_code != JWRN_JPEG_EOF && fault->manager.msg_code != JWRN_HIT_MARKER))
    return;
  fault->cut_short = true;
  give_up(info);
}

void say_nothing(j_common_ptr) {}

/// A progressive picture may hold any number of scans, each of which goes over all its pixels.
void count_scans(j_common_ptr info) {
  constexpr int most_scans = 100; // encoders write about ten
  constexpr double most_work = 1e9;
  const auto* reader = reinterpret_cast<jpeg_decompress_struct*>(info);
  const double pixels = static_cast<double>(reader->image_width) * reader->image_height;
  if (reader->input_scan_number <= most_scans && reader->input_scan_number * pixels <= most_work)
    return;
  reinterpret_cast<JpegFault*>(info->err)->many_scans = true;
  give_up(info);
}

/// What libjpeg hands over; lives outside the function that may be left by a jump.
struct JpegResult {
  Picture picture;
  std::vector<std::uint8_t> row;
  double width = 0, height = 0;
  std::array<char, 4096> exif{};
  std::size_t exif_size = 0;
  bool large = false, arithmetic = false;
  jpeg_progress_mgr progress{};
};

/// Four inks, as Adobe writes them: inverted.
void from_inks(const std::uint8_t* in, std::uint8_t* out) {
  for (int k = 0; k < 3; ++k)
    out[k] = static_cast<std::uint8_t>(in[k] * in[3] / 255);
}

void store_row(const jpeg_decompress_struct& info, JpegResult& result, std::uint8_t* out) {
  const std::uint8_t* in = result.row.data();
  for (JDIMENSION k = 0; k < info.output_width; ++k, in += info.output_components, out += 4) {
    if (info.output_components == 4)
      from_inks(in, out);
    else
      for (int c = 0; c < 3; ++c)
        out[c] = in[info.output_components == 1 ? 0 : c];
    out[3] = 255;
  }
}

void keep_exif(const jpeg_decompress_struct& info, JpegResult& result) {
  for (jpeg_saved_marker_ptr marker = info.marker_list; marker != nullptr; marker = marker->next)
    if (marker->data_length > 6 && std::memcmp(marker->data, "Exif\0", 6) == 0) {
      result.exif_size = std::min<std::size_t>(marker->data_length - 6, result.exif.size());
      std::memcpy(result.exif.data(), marker->data + 6, result.exif_size);
      return;
    }
}

/// False when libjpeg gave up. Holds nothing that would need to be freed when it is left by a jump.
bool decode(std::string_view bytes, jpeg_decompress_struct& info, JpegFault& fault, JpegResult& result) {
  if (setjmp(fault.back) != 0)
    return false;
  jpeg_create_decompress(&info);
  info.progress = &result.progress;
  result.progress.progress_monitor = count_scans;
  jpeg_mem_src(&info, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  jpeg_save_markers(&info, JPEG_APP0 + 1, 4096);
  jpeg_read_header(&info, TRUE);
  result.width = info.image_width;
  result.height = info.image_height;
  result.large = result.width * result.height > most_pixels;
  result.arithmetic = info.arith_code != FALSE;
  if (result.large || result.arithmetic)
    return true;
  keep_exif(info, result);
  constexpr unsigned wanted_side = 4000;
  info.scale_num = 1;
  for (info.scale_denom = 1;
       info.scale_denom < 8 && std::max(info.image_width, info.image_height) / info.scale_denom > wanted_side;)
    info.scale_denom *= 2;
  if (info.jpeg_color_space != JCS_CMYK && info.jpeg_color_space != JCS_YCCK)
    info.out_color_space = info.jpeg_color_space == JCS_GRAYSCALE ? JCS_GRAYSCALE : JCS_RGB;
  jpeg_start_decompress(&info);
  result.picture.width = static_cast<int>(info.output_width);
  result.picture.height = static_cast<int>(info.output_height);
  result.picture.rgba.resize(std::size_t{4} * info.output_width * info.output_height);
  result.row.resize(std::size_t{info.output_width} * static_cast<std::size_t>(info.output_components));
  std::uint8_t* out = result.picture.rgba.data();
  while (info.output_scanline < info.output_height) {
    JSAMPROW row = result.row.data();
    jpeg_read_scanlines(&info, &row, 1);
    store_row(info, result, out);
    out += std::size_t{4} * info.output_width;
  }
  return true;
}

/// A colour scan of an A4 page at 600 dots an inch with 16 bits takes 209 million.
bool too_deep(const png_image& image) {
  constexpr double most_stored = 2.2e8; // bytes, unpacked
  return static_cast<double>(image.width) * image.height * PNG_IMAGE_SAMPLE_SIZE(image.format) > most_stored;
}

} // namespace

bool is_png(std::string_view bytes) { return bytes.substr(0, 8) == "\x89PNG\r\n\x1a\n"sv; }
bool is_jpeg(std::string_view bytes) { return bytes.substr(0, 3) == "\xff\xd8\xff"sv; }

std::variant<Picture, std::string> read_png(std::string_view bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  const auto damaged = [&] {
    const std::string why = image.message;
    png_image_free(&image);
    return "The PNG picture is damaged or cut short (" + why + "); save or copy it anew.";
  };
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0)
    return damaged();
  constexpr std::size_t interlace_byte = 28; // of the file: the last of the header's (PNG 3, section 11.2.1)
  const bool is_interlaced = bytes[interlace_byte] != 0;
  const double most = is_interlaced ? most_interlaced_pixels : most_png_pixels;
  if (static_cast<double>(image.width) * image.height > most) {
    const double width = image.width, height = image.height;
    png_image_free(&image);
    return too_large(width, height, most, is_interlaced ? "an interlaced PNG" : "a PNG");
  }
  if (too_deep(image)) {
    png_image_free(&image);
    return std::string("The PNG picture stores more than 220 million bytes of pixels; save it with 8 bits a colour, or "
                       "smaller.");
  }
  image.format = PNG_FORMAT_RGBA;
  Picture picture{static_cast<int>(image.width), static_cast<int>(image.height), {}};
  picture.rgba.resize(PNG_IMAGE_SIZE(image));
  if (png_image_finish_read(&image, nullptr, picture.rgba.data(), 0, nullptr) == 0)
    return damaged();
  const int orientation = orientation_in(exif_of_png(bytes));
  return orientation == 1 ? std::move(picture) : turned(picture, orientation);
}

std::variant<Picture, std::string> read_jpeg(std::string_view bytes) {
  jpeg_decompress_struct info{};
  JpegFault fault{};
  info.err = jpeg_std_error(&fault.manager);
  fault.manager.error_exit = give_up;
  fault.manager.emit_message = note;
  fault.manager.output_message = say_nothing;
  JpegResult result;
  const bool whole = decode(bytes, info, fault, result);
  jpeg_destroy_decompress(&info);
  if (result.large)
    return too_large(result.width, result.height, most_pixels, "a JPEG");
  if (result.arithmetic)
    return std::string("The JPEG picture is stored in a way that hardly any program reads (arithmetic coding); save it "
                       "anew.");
  if (fault.many_scans)
    return std::string("The JPEG picture is stored in too many passes over its pixels; save it anew, not progressive.");
  if (!whole)
    return std::string("The JPEG picture is damaged or cut short; save or copy it anew.");
  const int orientation = orientation_in({result.exif.data(), result.exif_size});
  return orientation == 1 ? std::move(result.picture) : turned(result.picture, orientation);
}

int orientation_in(std::string_view exif) {
  constexpr std::uint32_t orientation_tag = 0x0112;
  if (exif.size() < 10 || (exif.substr(0, 2) != "II" && exif.substr(0, 2) != "MM"))
    return 1;
  const bool big = exif[0] == 'M';
  const std::size_t directory = number_at(exif, 4, 4, big);
  if (directory > exif.size() - 2)
    return 1;
  const std::size_t entries = number_at(exif, directory, 2, big);
  for (std::size_t k = 0; k < entries; ++k) {
    const std::size_t at = directory + 2 + 12 * k;
    if (at + 12 > exif.size())
      return 1;
    if (number_at(exif, at, 2, big) != orientation_tag)
      continue;
    const auto value = static_cast<int>(number_at(exif, at + 8, 2, big));
    return value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
}

Picture turned(const Picture& picture, int orientation) {
  const bool swapped = orientation >= 5;
  const int width = swapped ? picture.height : picture.width;
  const int height = swapped ? picture.width : picture.height;
  Picture result{width, height, std::vector<std::uint8_t>(picture.rgba.size())};
  std::uint8_t* out = result.rgba.data();
  for (int row = 0; row < height; ++row)
    for (int column = 0; column < width; ++column, out += 4) {
      // Exif 2.32, table 6: where row 0 and column 0 of the stored picture are to be seen.
      int x = swapped ? row : column, y = swapped ? column : row;
      if (orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8)
        x = picture.width - 1 - x;
      if (orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7)
        y = picture.height - 1 - y;
      std::memcpy(out, picture.at(x, y), 4);
    }
  return result;
}

} // namespace fanwright::traced
