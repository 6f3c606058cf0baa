// A figure of flat sheets with a pair of feathered wings, seated. Invented; no paper behind it.
#pragma once

#include "fan/swept_form.h"
#include "picture/fan_paper.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace fanwright::picture::sample {

inline constexpr double deg = 180 / std::numbers::pi;
inline constexpr int leaves = 24;

/// Three pointed feathers, long at the first side and short at the last.
inline fan::Fan feathered_wing() {
  fan::Fan wing;
  wing.depth_mm = 8;
  wing.pleats = 16;
  leaf::Subpath path;
  const auto at = [](double azimuth, double reach) {
    return leaf::Point{reach * std::cos(azimuth / deg), reach * std::sin(azimuth / deg)};
  };
  path.start = at(150, 46);
  for (int k = 1; k <= 60; ++k) {
    const double along = k / 20.0 - std::floor(k / 20.0);
    path.segments.emplace_back(leaf::Line{at(150 - 2.0 * k, 46 - 0.2 * k + 14 * along * (1 - along))});
  }
  wing.edge = fan::DrawnEdge{path};
  return wing;
}

struct Figure {
  opened::Panel panel;
  opened::Form form;
  fan::Seated seated;
};

/// A figure of flat sheets with a pair of feathered wings.
inline const Figure& winged() {
  static const Figure figure = [] {
    Figure made;
    const auto outline = fan::figure_outline(50, 16, 110, 9, 22);
    made.form = fan::swept_form(outline, leaves);
    for (const fan::Station& station : outline) {
      made.panel.outline.push_back({station.radius, station.height});
      made.form.height_mm = std::max(made.form.height_mm, station.height);
    }
    made.panel.outline.back().x = 0;
    made.panel.outline.insert(made.panel.outline.begin(), {0, 0});
    made.panel.leaves = leaves;
    made.panel.opening_deg = 360;
    made.panel.sheet.thickness_mm = 0.2;
    fan::Seat place;
    place.hold = fan::Hold::at_point;
    place.below_neck_mm = 20;
    place.pair = true;
    place.rise_deg = 15;
    made.seated = std::get<fan::Seated>(fan::seat(feathered_wing(), fan::body_of(made.form, leaves, {}), place, true));
    return made;
  }();
  return figure;
}

inline std::vector<FanPaper> papers_of(const Figure& figure) {
  std::vector<FanPaper> papers;
  for (const fan::Placed& placed : figure.seated.fans)
    papers.push_back(std::get<FanPaper>(fan_paper(placed, papers.empty() ? "wing, right" : "wing, left", 0.2)));
  return papers;
}

} // namespace fanwright::picture::sample
