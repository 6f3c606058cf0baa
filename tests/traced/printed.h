// Figures printed to pixels as a scanner or camera would give them back: soft edges, noise, a shaded ground, a tilt.
#pragma once

#include "traced/bitmap.h"
#include "traced/plane.h"

#include <png.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

namespace fanwright::traced::testing {

struct Print {
  double tilt_deg = 0; ///< to the left
  double pixels_per_mm = 6;
  double noise = 6;  ///< standard deviation, of 255
  int softness = 2;  ///< pixels over which an edge fades, each way
  double shade = 60; ///< how much darker the ground is at one side, of 255
  unsigned seed = 1;
};

inline std::string png_of(const std::vector<std::uint8_t>& grey, int width, int height) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(width);
  image.height = static_cast<png_uint_32>(height);
  image.format = PNG_FORMAT_GRAY;
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string bytes(size, '\0');
  png_image_write_to_memory(&image, bytes.data(), &size, 0, grey.data(), 0, nullptr);
  bytes.resize(size);
  return bytes;
}

inline void fade(std::vector<double>& value, int width, int height, int reach) {
  const auto pass = [&](int count, int lines, int along, int across) {
    std::vector<double> line(static_cast<std::size_t>(count));
    for (int l = 0; l < lines; ++l) {
      for (int k = 0; k < count; ++k) {
        double sum = 0;
        for (int d = -reach; d <= reach; ++d)
          sum += value[static_cast<std::size_t>(l * across + std::clamp(k + d, 0, count - 1) * along)];
        line[static_cast<std::size_t>(k)] = sum / (2 * reach + 1);
      }
      for (int k = 0; k < count; ++k)
        value[static_cast<std::size_t>(l * across + k * along)] = line[static_cast<std::size_t>(k)];
    }
  };
  pass(width, height, 1, width);
  pass(height, width, width, 1);
}

/// PNG bytes of areas in mm, dark on light, with 12 mm of ground all round.
inline std::string printed(const Areas& areas, const Print& print) {
  constexpr int finer = 4; // samples of a pixel each way
  constexpr double ground_mm = 12;
  const double angle = print.tilt_deg * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  double left = 1e9, right = -1e9, bottom = 1e9, top = -1e9;
  Areas turned = areas;
  const auto each = [&](const auto& act) {
    for (Area& area : turned) {
      std::for_each(area.outline.begin(), area.outline.end(), act);
      for (Ring& hole : area.holes)
        std::for_each(hole.begin(), hole.end(), act);
    }
  };
  each([&](Point& p) {
    p = {c * p.x - s * p.z, s * p.x + c * p.z};
    left = std::min(left, p.x), right = std::max(right, p.x), bottom = std::min(bottom, p.z), top = std::max(top, p.z);
  });
  const double scale = print.pixels_per_mm;
  const int width = static_cast<int>((right - left + 2 * ground_mm) * scale);
  const int height = static_cast<int>((top - bottom + 2 * ground_mm) * scale);
  each([&](Point& p) { p = {finer * scale * (p.x - left + ground_mm), finer * scale * (p.z - bottom + ground_mm)}; });
  const Bitmap fine = drawn(turned, finer * width, finer * height);
  std::vector<double> cover(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 0);
  for (int row = 0; row < finer * height; ++row)
    for (int column = 0; column < finer * width; ++column)
      cover[static_cast<std::size_t>(row / finer * width + column / finer)] +=
          fine.at(column, row) / double(finer * finer);
  fade(cover, width, height, print.softness);
  std::mt19937 chance(print.seed);
  std::normal_distribution<double> noise(0, print.noise);
  std::vector<std::uint8_t> grey(cover.size());
  for (int row = 0; row < height; ++row)
    for (int column = 0; column < width; ++column) {
      const auto at = static_cast<std::size_t>(row * width + column);
      const double ground = 235 - print.shade * column / width - print.shade / 2 * row / height;
      grey[at] = static_cast<std::uint8_t>(std::clamp(ground + cover[at] * (70 - ground) + noise(chance), 0.0, 255.0));
    }
  return png_of(grey, width, height);
}

/// A turned body, 120 mm high: half widths as a sum of waves that differ with the seed, foot cut straight.
inline Area turned_body(unsigned seed) {
  std::mt19937 chance(seed);
  std::uniform_real_distribution<double> share(-1, 1);
  const double a = 12 * share(chance), b = 8 * share(chance), d = 4 * share(chance), phase = 3 * share(chance);
  Ring right;
  constexpr int steps = 400;
  for (int k = 0; k <= steps; ++k) {
    const double t = double(k) / steps;
    const double wide = 34 + a * std::sin(2 * t + phase) + b * std::sin(5 * t) + d * std::sin(9 * t + phase);
    right.push_back({std::max(4.0, wide) * std::sqrt(std::max(0.0, 1 - std::pow(t, 4))), 120 * t});
  }
  Ring ring = right;
  for (auto p = right.rbegin(); p != right.rend(); ++p)
    if (p->x > 0)
      ring.push_back({-p->x, p->z});
  return {ring, {}};
}

inline double distance_to(const std::vector<Point>& line, Point p) {
  double least = 1e300;
  for (std::size_t k = 0; k + 1 < line.size(); ++k) {
    const double dx = line[k + 1].x - line[k].x, dz = line[k + 1].z - line[k].z, squared = dx * dx + dz * dz;
    const double t =
        squared > 0 ? std::clamp(((p.x - line[k].x) * dx + (p.z - line[k].z) * dz) / squared, 0.0, 1.0) : 0.0;
    least = std::min(least, std::hypot(line[k].x + t * dx - p.x, line[k].z + t * dz - p.z));
  }
  return least;
}

/// The largest distance from a point of either line to the other line.
inline double apart(const std::vector<Point>& a, const std::vector<Point>& b) {
  double most = 0;
  for (const Point& p : a)
    most = std::max(most, distance_to(b, p));
  for (const Point& p : b)
    most = std::max(most, distance_to(a, p));
  return most;
}

} // namespace fanwright::traced::testing
