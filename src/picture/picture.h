// Lit pictures of an opened ornament: paper under a window and a soft sky, on a warm table.
// Plain values in and out, no globals. The same form and style give the same bits whatever the number of threads.
#pragma once

#include "opened/opened.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

struct Style {
  int width_px = 900;        ///< 16..4096
  int height_px = 900;       ///< 16..4096
  int samples = 16;          ///< per pixel, rounded up to a square number; 1..1024
  double azimuth_deg = 24;   ///< where the viewer stands, turned from the middle of the opening; moved to mid-wedge
  double elevation_deg = 20; ///< how far above the horizon the viewer looks down, -10..89
  std::string colour = "#c8563c";       ///< of the paper, sRGB #rrggbb
  int leaves = 0;                       ///< leaves in the ornament; 0: as many as close the full circle
  int threads = 0;                      ///< 0: one for each core
  std::function<void(double)> progress; ///< called on the caller's thread with 0..1, may be empty
  std::function<bool()> cancelled;      ///< polled on the caller's thread between tiles, may be empty
};

/// 8-bit sRGB, rows from the top, 3 bytes a pixel.
struct Pixels {
  int width_px = 0, height_px = 0;
  std::vector<std::uint8_t> rgb;
};

/// The picture, or one sentence saying why there is none (style out of range, empty or broken mesh, cancelled).
std::variant<Pixels, std::string> render(const opened::Form& form, const Style& style);

/// Renders and writes a PNG file; `path` is replaced. Returns a sentence when it could not.
std::optional<std::string> write_png(const opened::Form& form, const Style& style, const std::filesystem::path& path);

/// Writes pixels as a PNG file. Returns a sentence when the file cannot be written.
std::optional<std::string> write_png(const Pixels& pixels, const std::filesystem::path& path);

} // namespace fanwright::picture
