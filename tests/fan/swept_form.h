// Opened forms whose geometry is known: flat half-panels that stand in the middle of their wedges.
#pragma once

#include "fan/seat.h"
#include "opened/opened.h"

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace fanwright::fan {

/// Half-panels of this outline, foot to top, whose outer edges all touch the solid that it sweeps out.
inline opened::Form swept_form(const std::vector<Station>& outline, int leaves, double opening_deg = 360) {
  opened::Form form;
  form.wedge_rad = opening_deg * std::numbers::pi / 180 / (2 * leaves);
  const double c = std::cos(form.wedge_rad / 2), s = std::sin(form.wedge_rad / 2);
  form.place = [c, s](leaf::Point flat) { return Point3{flat.x * c, flat.x * s, flat.z}; };
  const auto add = [&](double radius, double height) {
    form.edge.push_back({radius, height, radius, height});
    for (const double x : {0.0, radius}) {
      form.mesh.flat.push_back({x, height});
      form.mesh.points.push_back(form.place({x, height}));
    }
  };
  add(outline.front().radius, outline.front().height);
  for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
    const double dr = outline[i + 1].radius - outline[i].radius, dz = outline[i + 1].height - outline[i].height;
    const int steps = std::max(1, static_cast<int>(std::ceil(std::hypot(dr, dz) / 4)));
    for (int k = 1; k <= steps; ++k) {
      add(outline[i].radius + dr * k / steps, outline[i].height + dz * k / steps);
    }
  }
  const int count = static_cast<int>(form.mesh.points.size());
  for (int k = 0; k + 3 < count; k += 2) {
    form.mesh.triangles.push_back({k, k + 1, k + 3});
    form.mesh.triangles.push_back({k, k + 3, k + 2});
  }
  return form;
}

inline Body swept_body(const std::vector<Station>& outline, int leaves = 24, const paper::Paper& paper = {}) {
  return body_of(swept_form(outline, leaves), leaves, paper);
}

/// A skirt, a neck and a round head; mm.
inline std::vector<Station> figure_outline(double foot, double shoulder, double neck_height, double neck, double head) {
  std::vector<Station> outline{{foot, 0}, {shoulder, neck_height - 6}, {neck, neck_height}};
  const double centre = neck_height + 3 + std::sqrt(head * head - neck * neck);
  for (int k = 0; k <= 8; ++k) {
    const double from = std::asin(neck / head);
    const double angle = from + (std::numbers::pi - from) * k / 8;
    outline.push_back({head * std::sin(angle), centre - head * std::cos(angle)});
  }
  return outline;
}

/// A post with a neck under a wide flat lid: z 100 to 110 is neck, the lid's underside is at 110; mm.
inline std::vector<Station> lidded_outline() {
  return {{20, 0}, {20, 100}, {8, 100}, {8, 110}, {150, 110}, {150, 114}, {0, 114}};
}

inline Fan straight_fan(double depth, int pleats, double length, double spread) {
  Fan fan;
  fan.depth_mm = depth;
  fan.pleats = pleats;
  fan.edge = StraightEdge{length, spread};
  return fan;
}

} // namespace fanwright::fan
