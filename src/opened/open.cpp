#include "opened/guess.h"
#include "opened/mechanics.h"
#include "opened/newton.h"
#include "opened/opened.h"
#include "opened/surface.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

namespace fanwright::opened {
namespace {

/// Cells that bring the edge to 0.3 % of the size or better on the verification cases (docs/model.md).
Fineness fineness_of(const Panel& panel, const Options& options) {
  double extent = 0;
  for (const leaf::Point& p : panel.outline) {
    extent = std::max({extent, p.x, std::abs(p.z - panel.outline.front().z)});
  }
  Fineness fineness;
  fineness.cell_mm = options.cell_mm > 0 ? options.cell_mm : std::clamp(extent / 42.0, 2.0, 6.0);
  fineness.cells_per_gap = options.cells_per_gap > 0 ? options.cells_per_gap : 7;
  return fineness;
}

double radius_of(const Eigen::Vector3d& place) { return std::hypot(place[0], place[1]); }

/// Heights and radii of the edge; returns the ornament's lowest height.
double measure_edge(const Panel& panel, const Surface& surface, Form& form) {
  double lowest = std::numeric_limits<double>::infinity();
  double highest = -lowest;
  for (const leaf::Point flat : outer_edge(panel.outline, tolerance::edge_spacing_mm)) {
    const Eigen::Vector3d place = surface.at(flat);
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

/// The spine's own height and the hub it leaves open.
void measure_spine(const Panel& panel, const Surface& surface, Form& form) {
  const double foot = form.edge.front().z;
  const double top = form.edge.back().z;
  form.spine_height_mm = surface.at({0, top})[2] - surface.at({0, foot})[2];
  form.hub_radius_mm = std::numeric_limits<double>::infinity();
  const int steps = std::max(8, static_cast<int>((top - foot) / tolerance::edge_spacing_mm));
  for (int k = 0; k <= steps; ++k) {
    const double radius = radius_of(surface.at({0, foot + (top - foot) * k / steps}));
    form.hub_radius_mm = std::min(form.hub_radius_mm, radius - 0.5 * panel.sheet.thickness_mm);
  }
}

/// How far the outermost point of the leaf's lowest stretch stands above the ornament's lowest point.
void measure_foot(Form& form) {
  const auto lowest = std::min_element(form.edge.begin(), form.edge.end(), [](const EdgePoint& a, const EdgePoint& b) {
    return a.z < b.z - 1e-6 || (a.z < b.z + 1e-6 && a.x > b.x);
  });
  form.foot_lift_mm = lowest->height;
}

/// All that a solved sheet needs to be asked for places after open() has returned.
struct Solved {
  Grid grid;
  Pieces pieces;
};

std::function<Point3(leaf::Point)> place_of(Grid grid, Pieces pieces, const Eigen::Matrix3Xd& places, double lowest) {
  const auto solved = std::make_shared<const Solved>(Solved{std::move(grid), std::move(pieces)});
  const auto surface = std::make_shared<const Surface>(solved->grid, solved->pieces, places);
  return [solved, surface, lowest](leaf::Point flat) -> Point3 {
    const Eigen::Vector3d place = surface->at(flat);
    return {place[0], place[1], place[2] - lowest};
  };
}

} // namespace

std::variant<Form, Failure> open(const Panel& panel, const Options& options) {
  const auto start = std::chrono::steady_clock::now();
  if (panel.rows.empty() || panel.outline.size() < 3) {
    return Failure{"The leaf has no glue rows, so nothing opens it; add at least one inside and one between row."};
  }
  const Grid grid(panel, fineness_of(panel, options));
  if (!grid.sound()) {
    return Failure{"The glue rows run together too steeply to compute the opened form; make neighbouring rows more "
                   "nearly parallel or set them further apart."};
  }
  if (3LL * grid.cells_across() * grid.cells_up() > tolerance::most_unknowns) {
    return Failure{"The glue rows ask for more detail than can be computed; use fewer rows."};
  }
  const Pieces pieces = cut(panel, grid);
  Mechanics mechanics(panel, grid, pieces);
  Eigen::Matrix3Xd places = first_guess(panel, grid, pieces, mechanics.wedge_rad());
  mechanics.settle(places);
  mechanics.pin_height(places);
  Vector unknowns = mechanics.unknowns_of(places);
  const NewtonResult result = minimise(mechanics, unknowns, {options.progress, options.cancelled});
  if (result.cancelled) {
    return Failure{"Cancelled."};
  }
  if (!result.converged) {
    return Failure{"No opened form was found: the glue rows hold the paper so that it cannot open this far; use more "
                   "leaves, fewer rows or a smaller opening."};
  }
  places = mechanics.places(unknowns);
  const Surface surface(grid, pieces, places);
  Form form;
  form.wedge_rad = mechanics.wedge_rad();
  const double lowest = measure_edge(panel, surface, form);
  measure_spine(panel, surface, form);
  measure_foot(form);
  form.lock_ratio = lock(panel, grid, form.wedge_rad).ratio;
  form.peak_strain = mechanics.peak_strain(places);
  form.holding_moment_nmm = mechanics.holding_moment(places);
  form.bending_energy_nmm = mechanics.bending_energy(places);
  form.membrane_energy_nmm = mechanics.membrane_energy(places);
  form.mesh = surface.mesh(tolerance::mesh_spacing_mm);
  for (Point3& point : form.mesh.points) {
    point[2] -= lowest;
  }
  form.place = place_of(grid, pieces, places, lowest);
  form.unknowns = mechanics.unknowns();
  form.iterations = result.steps;
  form.factorisations = result.factorisations;
  form.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return form;
}

} // namespace fanwright::opened
