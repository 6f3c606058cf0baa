// Lit pictures of opened ornaments: paper under a window and a soft sky, on a table or before a wall.
// Plain values in and out, no globals. The same forms and style give the same bits whatever the number of threads.
#pragma once

#include "opened/opened.h"
#include "picture/fan_paper.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

/// What stands behind the paper. wall: upright, through the axis, for pieces opened to half a circle or less.
enum class Background { table, wall, plain, transparent };

struct Style {
  int width_px = 900;        ///< 16..4096
  int height_px = 900;       ///< 16..4096
  int samples = 16;          ///< per pixel, rounded up to a square number; 1..1024
  bool draft = false;        ///< coarser paper and light, no sheet edges: for a preview
  double azimuth_deg = 24;   ///< where the viewer stands, turned from the middle of the opening; moved to mid-wedge
  double elevation_deg = 20; ///< how far above the horizon the viewer looks down, -10..89
  double zoom = 1;           ///< 1: the whole ornament fills the frame; up to 20
  double look_up = 0;        ///< moves the frame's middle up by this share of the seen height, -0.5..0.5
  double look_right = 0;     ///< and to the right by this share of the seen width, -0.5..0.5
  double blur = 0;           ///< lens opening as a share of the ornament's radius, 0 (all sharp)..0.5
  Background background = Background::table;
  std::string colour = "#c8563c";       ///< of the paper: sRGB #rrggbb or a name of papers.h
  std::uint32_t seed = 0;               ///< of all chance
  int leaves = 0;                       ///< of a single form; 0: as many as close the full circle
  int threads = 0;                      ///< 0: one for each core
  std::function<void(double)> progress; ///< called on the caller's thread with 0..1, may be empty
  std::function<bool()> cancelled;      ///< polled on the caller's thread between tiles, may be empty
};

enum class View { three_quarter, front, top, close_up };

/// Where a view stands: sets angles, zoom, frame and blur of the style.
void look_from(View view, Style& style);

/// One ornament in a picture.
struct Piece {
  const opened::Form* form = nullptr; ///< must outlive the call
  int leaves = 0;                     ///< 0: as many as close the full circle
  double caliper_mm = 0;              ///< thickness shown at the cut edges; 0: none
  std::vector<leaf::Ring> cut_outs{}; ///< of the flat half-leaf, whose edges show it too
  std::vector<FanPaper> fans{};       ///< in their seats on this form
};

/// 8-bit sRGB, rows from the top, 3 bytes a pixel.
struct Pixels {
  int width_px = 0, height_px = 0;
  std::vector<std::uint8_t> rgb;
  std::vector<std::uint8_t> alpha; ///< one byte a pixel, 255 where paper covers it; empty: opaque
};

/// The picture, or one sentence saying why there is none (style out of range, empty or broken mesh, cancelled).
std::variant<Pixels, std::string> render(const opened::Form& form, const Style& style);

/// Several pieces stand in a row, from the viewer's left, behind a ruler in mm; `style.leaves` is not looked at.
std::variant<Pixels, std::string> render(const std::vector<Piece>& pieces, const Style& style);

/// One picture for each form of an opening ornament, all in the same frame, the middle of the opening held still.
std::variant<std::vector<Pixels>, std::string> render_opening(const std::vector<Piece>& steps, const Style& style);

/// Renders and writes a PNG file; `path` is replaced. Returns a sentence when it could not.
std::optional<std::string> write_png(const opened::Form& form, const Style& style, const std::filesystem::path& path);

/// Writes pixels as a PNG file. Returns a sentence when the file cannot be written.
std::optional<std::string> write_png(const Pixels& pixels, const std::filesystem::path& path);

/// Writes an animated PNG (a plain PNG of the last frame to readers that know no animation) that shows each frame for
/// `frame_ms`, rests on the last for `rest_ms` and starts again. All frames have the size of the first.
std::optional<std::string> write_moving_png(const std::vector<Pixels>& frames, int frame_ms, int rest_ms,
                                            const std::filesystem::path& path);

} // namespace fanwright::picture
