#include "opened/measure.h"

#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace fanwright::opened {
namespace {

double radius_of(const Eigen::Vector3d& place) { return std::hypot(place[0], place[1]); }

} // namespace

double measure_edge(const Panel& panel, const PlaceOf& place_of, Form& form) {
  double lowest = std::numeric_limits<double>::infinity();
  double highest = -lowest;
  for (const leaf::Point flat : outer_edge(panel.outline, tolerance::edge_spacing_mm)) {
    const Eigen::Vector3d place = place_of(flat);
    form.edge.push_back({flat.x, flat.z, radius_of(place), place[2]});
    lowest = std::min(lowest, place[2]);
    highest = std::max(highest, place[2]);
    form.diameter_mm = std::max(form.diameter_mm, 2 * radius_of(place));
  }
  form.height_mm = highest - lowest;
  for (EdgePoint& point : form.edge) {
    point.height -= lowest;
  }
  return lowest;
}

void measure_spine(const Panel& panel, const PlaceOf& place_of, Form& form) {
  const double foot = form.edge.front().z;
  const double top = form.edge.back().z;
  form.spine_height_mm = place_of({0, top})[2] - place_of({0, foot})[2];
  form.hub_radius_mm = std::numeric_limits<double>::infinity();
  const int steps = std::max(8, static_cast<int>((top - foot) / tolerance::edge_spacing_mm));
  for (int k = 0; k <= steps; ++k) {
    const double radius = radius_of(place_of({0, foot + (top - foot) * k / steps}));
    form.hub_radius_mm = std::min(form.hub_radius_mm, radius - 0.5 * panel.sheet.thickness_mm);
  }
}

void measure_foot(Form& form) {
  const auto lowest = std::min_element(form.edge.begin(), form.edge.end(), [](const EdgePoint& a, const EdgePoint& b) {
    return a.z < b.z - 1e-6 || (a.z < b.z + 1e-6 && a.x > b.x);
  });
  form.foot_lift_mm = lowest->height;
}

void measure_by_place(const Panel& panel, Form& form) {
  const PlaceOf place_of = [&form](leaf::Point flat) {
    const Point3 p = form.place(flat);
    return Eigen::Vector3d(p[0], p[1], p[2]);
  };
  form.edge.clear();
  form.diameter_mm = 0;
  const double lowest = measure_edge(panel, place_of, form);
  measure_spine(panel, place_of, form);
  measure_foot(form);
  form.place = [place = std::move(form.place), lowest](leaf::Point flat) {
    Point3 p = place(flat);
    p[2] -= lowest;
    return p;
  };
}

} // namespace fanwright::opened
