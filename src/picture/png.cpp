// PNG files, still and moving. Based on ISO/IEC 15948 (PNG) and, for the chunks acTL, fcTL and fdAT, on the third
// edition of the W3C's PNG specification.
#include "picture/picture.h"

#include <zlib.h>

#include <array>
#include <cassert>
#include <cstdlib>
#include <fstream>

namespace fanwright::picture {
namespace {

using Bytes = std::vector<std::uint8_t>;

void put_u32(Bytes& out, std::uint32_t value) {
  for (int shift : {24, 16, 8, 0})
    out.push_back(static_cast<std::uint8_t>(value >> shift));
}

void put_u16(Bytes& out, int value) {
  out.push_back(static_cast<std::uint8_t>(value >> 8));
  out.push_back(static_cast<std::uint8_t>(value));
}

void put_chunk(Bytes& out, const char* type, const Bytes& data) {
  put_u32(out, static_cast<std::uint32_t>(data.size()));
  const std::size_t from = out.size();
  out.insert(out.end(), type, type + 4);
  out.insert(out.end(), data.begin(), data.end());
  put_u32(out, static_cast<std::uint32_t>(crc32(0, out.data() + from, static_cast<uInt>(out.size() - from))));
}

std::uint8_t paeth(int left, int above, int corner) {
  const int guess = left + above - corner;
  const int dl = std::abs(guess - left), da = std::abs(guess - above), dc = std::abs(guess - corner);
  return static_cast<std::uint8_t>(dl <= da && dl <= dc ? left : da <= dc ? above : corner);
}

// Filters a row in the way that leaves the smallest sum of differences (the heuristic the standard recommends).
void put_filtered(Bytes& out, const Bytes& row, const Bytes& before, std::size_t step) {
  std::array<Bytes, 5> tries;
  std::size_t best = 0;
  long best_sum = -1;
  for (std::size_t type = 0; type < tries.size(); ++type) {
    long sum = 0;
    tries[type].reserve(row.size());
    for (std::size_t i = 0; i < row.size(); ++i) {
      const int left = i >= step ? row[i - step] : 0, above = before[i], corner = i >= step ? before[i - step] : 0;
      const std::array<int, 5> guess{0, left, above, (left + above) / 2, paeth(left, above, corner)};
      const auto difference = static_cast<std::uint8_t>(row[i] - guess[type]);
      tries[type].push_back(difference);
      sum += std::abs(static_cast<std::int8_t>(difference));
    }
    if (best_sum < 0 || sum < best_sum)
      best = type, best_sum = sum;
  }
  out.push_back(static_cast<std::uint8_t>(best));
  out.insert(out.end(), tries[best].begin(), tries[best].end());
}

Bytes compressed(const Pixels& pixels) {
  const bool clear = !pixels.alpha.empty();
  const std::size_t step = clear ? 4 : 3, width = static_cast<std::size_t>(pixels.width_px);
  Bytes filtered, row(step * width), before(step * width, 0);
  for (std::size_t y = 0; y < static_cast<std::size_t>(pixels.height_px); ++y) {
    for (std::size_t x = 0; x < width; ++x) {
      const std::size_t pixel = y * width + x;
      for (std::size_t c = 0; c < 3; ++c)
        row[step * x + c] = pixels.rgb[3 * pixel + c];
      if (clear)
        row[step * x + 3] = pixels.alpha[pixel];
    }
    put_filtered(filtered, row, before, step);
    before = row;
  }
  uLongf size = compressBound(static_cast<uLong>(filtered.size()));
  Bytes out(size);
  // Fails only for want of memory, which std::vector has just shown to be there.
  [[maybe_unused]] const int status =
      compress2(out.data(), &size, filtered.data(), static_cast<uLong>(filtered.size()), 7);
  assert(status == Z_OK);
  out.resize(size);
  return out;
}

Bytes head(const Pixels& pixels) {
  Bytes out{0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
  Bytes header;
  put_u32(header, static_cast<std::uint32_t>(pixels.width_px));
  put_u32(header, static_cast<std::uint32_t>(pixels.height_px));
  const std::uint8_t truecolour = pixels.alpha.empty() ? 2 : 6;
  header.insert(header.end(), {8, truecolour, 0, 0, 0});
  put_chunk(out, "IHDR", header);
  put_chunk(out, "sRGB", {0});
  return out;
}

// Written beside and renamed, so that a reader never finds half a picture and an old one stays whole.
std::optional<std::string> put_file(const Bytes& bytes, const std::filesystem::path& path) {
  const std::filesystem::path beside = path.string() + ".part";
  std::error_code error;
  bool good = false;
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    file.close();
    good = !file.fail();
  }
  if (good)
    std::filesystem::rename(beside, path, error);
  if (good && !error)
    return std::nullopt;
  std::filesystem::remove(beside, error);
  return "The picture " + path.string() + " cannot be written; check the folder and the free space.";
}

Bytes frame_control(std::uint32_t number, const Pixels& pixels, int shown_ms) {
  Bytes data;
  put_u32(data, number);
  put_u32(data, static_cast<std::uint32_t>(pixels.width_px));
  put_u32(data, static_cast<std::uint32_t>(pixels.height_px));
  put_u32(data, 0);
  put_u32(data, 0);
  put_u16(data, shown_ms);
  put_u16(data, 1000);
  data.insert(data.end(), {0, 0}); // the frame is left standing and replaces what was there
  return data;
}

} // namespace

std::optional<std::string> write_png(const Pixels& pixels, const std::filesystem::path& path) {
  Bytes out = head(pixels);
  put_chunk(out, "IDAT", compressed(pixels));
  put_chunk(out, "IEND", {});
  return put_file(out, path);
}

std::optional<std::string> write_moving_png(const std::vector<Pixels>& frames, int frame_ms, int rest_ms,
                                            const std::filesystem::path& path) {
  assert(!frames.empty());
  Bytes out = head(frames.front());
  Bytes control;
  put_u32(control, static_cast<std::uint32_t>(frames.size()));
  put_u32(control, 0); // again and again
  put_chunk(out, "acTL", control);
  // The last frame, as the still picture, has no frame control and so is no part of the animation.
  put_chunk(out, "IDAT", compressed(frames.back()));
  std::uint32_t number = 0;
  for (const Pixels& frame : frames) {
    put_chunk(out, "fcTL", frame_control(number++, frame, &frame == &frames.back() ? rest_ms : frame_ms));
    Bytes data;
    put_u32(data, number++);
    const Bytes packed = compressed(frame);
    data.insert(data.end(), packed.begin(), packed.end());
    put_chunk(out, "fdAT", data);
  }
  put_chunk(out, "IEND", {});
  return put_file(out, path);
}

} // namespace fanwright::picture
