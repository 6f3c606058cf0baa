#include "traced/bitmap.h"

#include "leaf/contour.h"

#include <potracelib.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace fanwright::traced {
namespace {

constexpr int word_bits = 8 * static_cast<int>(sizeof(potrace_word));

struct DropParameters {
  void operator()(potrace_param_t* parameters) const { potrace_param_free(parameters); }
};
struct DropState {
  void operator()(potrace_state_t* state) const { potrace_state_free(state); }
};

Point point(const potrace_dpoint_t& p) { return {p.x, p.y}; }

Ring ring_of(const potrace_curve_t& curve) {
  constexpr double chord = 0.02; // pixels
  leaf::Contour contour;
  contour.start = point(curve.c[curve.n - 1][2]);
  for (int k = 0; k < curve.n; ++k) {
    if (curve.tag[k] == POTRACE_CORNER) {
      contour.segments.emplace_back(leaf::Line{point(curve.c[k][1])});
      contour.segments.emplace_back(leaf::Line{point(curve.c[k][2])});
    } else {
      contour.segments.emplace_back(leaf::Cubic{point(curve.c[k][0]), point(curve.c[k][1]), point(curve.c[k][2])});
    }
  }
  return leaf::flatten(contour, chord);
}

} // namespace

std::size_t edge_pixels(const Bitmap& bitmap) {
  const auto width = static_cast<std::size_t>(bitmap.width);
  std::size_t edges = 0;
  for (std::size_t k = 0; k < bitmap.ink.size(); ++k) {
    edges += (k + 1) % width != 0 && bitmap.ink[k] != bitmap.ink[k + 1] ? 1 : 0;
    edges += k + width < bitmap.ink.size() && bitmap.ink[k] != bitmap.ink[k + width] ? 1 : 0;
  }
  return edges;
}

Areas outlines_of(const Bitmap& bitmap, int speck) {
  const int words = (bitmap.width + word_bits - 1) / word_bits;
  std::vector<potrace_word> map(static_cast<std::size_t>(words) * static_cast<std::size_t>(bitmap.height), 0);
  for (int row = 0; row < bitmap.height; ++row)
    for (int column = 0; column < bitmap.width; ++column)
      if (bitmap.at(column, row) != 0) {
        const auto line = static_cast<std::size_t>(bitmap.height - 1 - row) * static_cast<std::size_t>(words);
        map[line + static_cast<std::size_t>(column / word_bits)] |= potrace_word{1}
                                                                    << (word_bits - 1 - column % word_bits);
      }
  potrace_bitmap_t view{bitmap.width, bitmap.height, words, map.data()};
  const std::unique_ptr<potrace_param_t, DropParameters> parameters(potrace_param_default());
  parameters->turdsize = speck;
  parameters->turnpolicy = POTRACE_TURNPOLICY_BLACK; // lines that touch at a corner hold together
  const std::unique_ptr<potrace_state_t, DropState> state(potrace_trace(parameters.get(), &view));
  if (!state || state->status != POTRACE_STATUS_OK)
    return {};
  std::size_t paths = 0;
  for (const potrace_path_t* path = state->plist; path != nullptr; path = path->next)
    ++paths;
  if (paths > most_rings)
    return {};
  std::vector<Ring> rings;
  for (const potrace_path_t* path = state->plist; path != nullptr; path = path->next)
    rings.push_back(ring_of(path->curve));
  return filled(rings, FillRule::evenodd);
}

Bitmap drawn(const Areas& areas, int width, int height) {
  Bitmap bitmap(width, height);
  std::vector<std::vector<double>> crossings(static_cast<std::size_t>(height));
  const auto add = [&](const Ring& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
      Point a = ring[k], b = ring[(k + 1) % ring.size()];
      if (a.z > b.z)
        std::swap(a, b);
      // Middles of rows at z = level + 0.5 with a.z <= z < b.z.
      const int first = std::max(0, static_cast<int>(std::ceil(a.z - 0.5)));
      const int last = std::min(height - 1, static_cast<int>(std::ceil(b.z - 0.5)) - 1);
      for (int level = first; level <= last; ++level) {
        const double t = (level + 0.5 - a.z) / (b.z - a.z);
        crossings[static_cast<std::size_t>(level)].push_back(a.x + t * (b.x - a.x));
      }
    }
  };
  for (const Area& area : areas) {
    add(area.outline);
    for (const Ring& hole : area.holes)
      add(hole);
  }
  for (int level = 0; level < height; ++level) {
    std::vector<double>& xs = crossings[static_cast<std::size_t>(level)];
    std::sort(xs.begin(), xs.end());
    for (std::size_t k = 0; k + 1 < xs.size(); k += 2) {
      const int first = std::max(0, static_cast<int>(std::ceil(xs[k] - 0.5)));
      const int last = std::min(width - 1, static_cast<int>(std::ceil(xs[k + 1] - 0.5)) - 1);
      for (int column = first; column <= last; ++column)
        bitmap.at(column, height - 1 - level) = 1;
    }
  }
  return bitmap;
}

} // namespace fanwright::traced
