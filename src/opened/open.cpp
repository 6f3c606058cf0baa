#include "opened/alike.h"
#include "opened/carried.h"
#include "opened/equilibrium.h"
#include "opened/guess.h"
#include "opened/measure.h"
#include "opened/newton.h"
#include "opened/opened.h"
#include "opened/relax.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace fanwright::opened {
namespace {

std::function<Point3(leaf::Point)> place_of(const std::shared_ptr<const Equilibrium>& equilibrium, double lowest) {
  const auto surface = std::make_shared<const Surface>(equilibrium->surface());
  return [equilibrium, surface, lowest](leaf::Point flat) -> Point3 {
    const Eigen::Vector3d place = surface->at(flat);
    return {place[0], place[1], place[2] - lowest};
  };
}

Mesh lowered_mesh(const Surface& surface, double lowest) {
  Mesh mesh = surface.mesh(tolerance::mesh_spacing_mm);
  for (Point3& point : mesh.points) {
    point[2] -= lowest;
  }
  return mesh;
}

/// Brings a guess to rest: Newton's steps first, quasi-Newton's once it is a sheet of paper. See
/// tolerance::guess_energy_share.
NewtonResult bring_to_rest(const Mechanics& mechanics, DampedFactor& factor, Vector& unknowns, const Options& options) {
  constexpr double first_part = 0.5; // of the progress
  NewtonHooks hooks{{}, options.cancelled};
  if (options.progress) {
    hooks.progress = [&](double done) { options.progress(first_part * done); };
  }
  NewtonResult first = descend(mechanics, factor, unknowns, hooks, Start::guess,
                               {tolerance::guess_energy_share, tolerance::later_guess_energy_share});
  if (!first.converged) {
    return first;
  }
  double left = 1 - first_part;
  const auto polled = [&] {
    if (options.progress) {
      options.progress(1 - left);
      left *= 0.97;
    }
    return options.cancelled && options.cancelled();
  };
  return relax(mechanics, factor, unknowns, ground_at(mechanics, unknowns), rest_of(options, Start::guess), polled)
      .after(first);
}

} // namespace

Fineness fineness_of(const Panel& panel, const Options& options) {
  double extent = 0;
  for (const leaf::Point& p : panel.outline) {
    extent = std::max({extent, p.x, std::abs(p.z - panel.outline.front().z)});
  }
  const double usual = std::clamp(extent / 28.0, 3.0, 9.0);
  Fineness fineness{usual, tolerance::cells_per_gap, 0, tolerance::grid_line_mm};
  if (options.detail == Detail::quick) {
    fineness = {tolerance::quick_cells_wide * usual, tolerance::quick_cells_per_gap, 0, tolerance::quick_grid_line_mm};
  } else if (options.detail == Detail::glance) {
    fineness = {tolerance::glance_cells_wide * usual, tolerance::glance_cells_per_gap, 0,
                tolerance::glance_grid_line_mm};
  }
  if (options.cell_mm > 0) {
    fineness.cell_mm = options.cell_mm;
  }
  if (options.cells_per_gap > 0) {
    fineness.cells_per_gap = options.cells_per_gap;
  }
  return fineness;
}

Rest rest_of(const Options& options, Start start) {
  const bool near = start == Start::near;
  if (options.detail != Detail::full) {
    return {tolerance::quick_energy_share, near ? tolerance::quick_fallen_share : 0, near};
  }
  return {tolerance::relax_energy_share, near ? tolerance::relax_fallen_share : 0};
}

Form form_of(const Panel& panel, const Options& options, std::shared_ptr<const Equilibrium> equilibrium) {
  const Mechanics& mechanics = equilibrium->mechanics;
  const Eigen::Matrix3Xd places = mechanics.places(equilibrium->unknowns);
  const Surface surface(equilibrium->grid, equilibrium->pieces, places);
  Form form;
  form.wedge_rad = mechanics.wedge_rad();
  const PlaceOf place_of_flat = [&](leaf::Point flat) { return surface.at(flat); };
  const double lowest = measure_edge(panel, place_of_flat, form);
  measure_spine(panel, place_of_flat, form);
  measure_foot(form);
  form.row_locks = row_locks(panel, equilibrium->grid, form.wedge_rad);
  for (const RowLock& lock : form.row_locks) {
    form.lock_ratio = std::max(form.lock_ratio, lock.ratio);
  }
  form.peak_strain = mechanics.peak_strain(places);
  form.holding_moment_nmm = mechanics.holding_moment(places, moves_with_wedge(*equilibrium));
  form.bending_energy_nmm = mechanics.bending_energy(places);
  form.membrane_energy_nmm = mechanics.membrane_energy(places);
  form.place = place_of(equilibrium, lowest);
  form.unknowns = mechanics.unknowns();
  form.equilibrium = std::move(equilibrium);
  if (options.mesh) {
    form.mesh = lowered_mesh(surface, lowest);
  }
  return form;
}

void make_mesh(Form& form) {
  const Surface surface = form.equilibrium->surface();
  const leaf::Point anywhere{form.edge.front().x, form.edge.front().z};
  const double lowest = surface.at(anywhere)[2] - form.place(anywhere)[2];
  form.mesh = lowered_mesh(surface, lowest);
}

std::variant<Laid, Failure> lay(const Panel& panel, const Options& options, const Equilibrium* before) {
  if (panel.rows.empty() || panel.outline.size() < 3) {
    return Failure{"The leaf has no glue rows, so nothing opens it; add at least one inside and one between row."};
  }
  const Fineness fineness = fineness_of(panel, options);
  const bool as_fine = before != nullptr && before->fineness.cells_per_gap == fineness.cells_per_gap;
  Grid grid(panel, fineness, as_fine ? &before->grid : nullptr);
  if (!grid.sound()) {
    return Failure{"The glue rows run together too steeply to compute the opened form; make neighbouring rows more "
                   "nearly parallel or set them further apart."};
  }
  if (3LL * grid.cells_across() * grid.cells_up() > tolerance::most_unknowns) {
    return Failure{"The glue rows ask for more detail than can be computed; use fewer rows."};
  }
  Pieces pieces = cut(panel, grid);
  std::vector<int> alike;
  if (before != nullptr) {
    alike = alike_pieces({grid, pieces}, {before->grid, before->pieces});
  }
  Mechanics mechanics(panel, grid, pieces, before != nullptr ? &before->mechanics : nullptr, alike);
  return Laid{fineness, std::move(grid), std::move(pieces), std::move(mechanics), std::move(alike)};
}

std::variant<Form, Failure> open(const Panel& panel, const Options& options) {
  auto opened = open_from_start(panel, options);
  if (auto* failure = std::get_if<Failure>(&opened)) {
    return std::move(*failure);
  }
  return std::move(std::get<Opened>(opened).form);
}

std::variant<Opened, Failure> open_from_start(const Panel& panel, const Options& options, const Equilibrium* finer) {
  const auto start = std::chrono::steady_clock::now();
  auto sheet = lay(panel, options);
  if (auto* failure = std::get_if<Failure>(&sheet)) {
    return std::move(*failure);
  }
  auto& [fineness, grid, pieces, mechanics, alike] = std::get<Laid>(sheet);
  Eigen::Matrix3Xd places = finer != nullptr ? carried_to_leaf(*finer, {grid, pieces}, alike)
                                             : first_guess(panel, grid, pieces, mechanics.wedge_rad());
  mechanics.settle(places);
  mechanics.pin_height(places);
  Vector unknowns = mechanics.unknowns_of(places);
  auto factor = std::make_unique<DampedFactor>(mechanics.pattern(), 0.0);
  const NewtonResult result = bring_to_rest(mechanics, *factor, unknowns, options);
  if (result.cancelled) {
    return Failure{"Cancelled."};
  }
  if (!result.converged) {
    return Failure{"No opened form was found: the glue rows hold the paper so that it cannot open this far; use more "
                   "leaves, fewer rows or a smaller opening."};
  }
  Form form = form_of(panel, options,
                      std::make_shared<const Equilibrium>(Equilibrium{fineness, std::move(grid), std::move(pieces),
                                                                      std::move(mechanics), std::move(unknowns)}));
  form.iterations = result.steps;
  form.factorisations = result.factorisations;
  form.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return Opened{std::move(form), std::move(factor)};
}

} // namespace fanwright::opened
