// Panels that several tests of the opened form use.
#pragma once

#include "opened/opened.h"

#include <cmath>

namespace fanwright::opened {

inline leaf::GlueRow row(design::Side side, double x0, double x1, double z, double width = 3.0, double rise = 0.0) {
  return {side, {x0, z}, {x1, z + rise}, width};
}

/// A straight leaf 40 x 60 mm with four rows, 24 leaves, paper stiffer along the spine.
inline Panel small_panel() {
  Panel panel;
  panel.outline = {{0, 0}, {40, 0}, {40, 60}, {0, 60}};
  panel.rows = {row(design::Side::inside, 3, 37, 6), row(design::Side::between, 3, 37, 22),
                row(design::Side::inside, 3, 37, 38), row(design::Side::between, 3, 37, 54)};
  panel.sheet = {0.2, 2000, 4500, 0.293, 1160};
  panel.leaves = 24;
  return panel;
}

/// The same with sloping rows and a round cut-out.
inline Panel sloped_panel() {
  Panel panel = small_panel();
  panel.rows[1] = row(design::Side::between, 3, 37, 20, 3, 4);
  panel.rows[2] = row(design::Side::inside, 3, 37, 40, 3, -3);
  leaf::Ring hole;
  for (int k = 0; k < 24; ++k) {
    const double angle = -6.283185307179586 * k / 24;
    hole.push_back({22 + 4 * std::cos(angle), 13 + 3 * std::sin(angle)});
  }
  panel.cut_outs = {hole};
  return panel;
}

} // namespace fanwright::opened
