#include "opened/preview.h"

#include "leaf/edge_finder.h"
#include "opened/equilibrium.h"
#include "opened/measure.h"
#include "opened/solver.h"
#include "opened/tolerances.h"

#include <cmath>
#include <utility>

namespace fanwright::opened {
namespace {

/// A place in the wedge frame, or the difference of two: mm, radians, mm.
struct Turned {
  double out = 0, angle = 0, up = 0;
};

Turned turned(const Point3& place) {
  return {std::hypot(place[0], place[1]), std::atan2(place[1], place[0]), place[2]};
}

Options coarsely(const Options& options, Detail detail) {
  Options coarse;
  coarse.cancelled = options.cancelled;
  coarse.mesh = false;
  coarse.detail = detail;
  return coarse;
}

/// Quick where the sheet is small enough for it.
Detail detail_for(const Panel& panel) {
  const Grid grid(panel, fineness_of(panel, coarsely({}, Detail::quick)));
  const bool small = grid.sound() && grid.cells_across() * grid.cells_up() <= tolerance::most_preview_cells;
  return small ? Detail::quick : Detail::glance;
}

/// The coarse form of the same equilibrium.
std::optional<Form> coarse_from(const Panel& panel, const Form& form, const Options& options) {
  if (form.equilibrium->fineness == fineness_of(panel, options)) {
    Form same = form;
    same.mesh = {};
    return same;
  }
  auto opened = open_from_start(panel, options, form.equilibrium.get());
  if (std::holds_alternative<Failure>(opened)) {
    return std::nullopt;
  }
  return std::move(std::get<Opened>(opened).form);
}

/// What a form has more than its coarse one, as shares of the latter.
double share(double fine, double coarse) { return coarse > 0 ? fine / coarse : 1.0; }

} // namespace

struct Preview::Base {
  Panel panel;
  Form fine, coarse;
  Detail detail; ///< of the coarse form
  leaf::EdgeFinder edge;

  /// What the coarse form lacks at a flat place of this leaf or, beside it, at its nearest edge.
  Turned lacks(leaf::Point flat) const {
    const leaf::Point there = edge.holds(flat) ? flat : edge.nearest(flat);
    const Turned a = turned(fine.place(there)), b = turned(coarse.place(there));
    return {a.out - b.out, a.angle - b.angle, a.up - b.up};
  }

  Point3 corrected(leaf::Point flat, const Point3& place, double wider) const {
    const Turned lack = lacks(flat), now = turned(place);
    const double radius = now.out + lack.out, angle = now.angle + wider * lack.angle;
    return {radius * std::cos(angle), radius * std::sin(angle), now.up + lack.up};
  }

  /// The coarse form of a panel beside this one.
  std::optional<Form> coarse_of(const Panel& next, const Options& options) const {
    return Solver(panel, coarse).open_beside(next, coarsely(options, detail));
  }

  void correct_loads(Form& form) const;
};

void Preview::Base::correct_loads(Form& form) const {
  form.peak_strain *= share(fine.peak_strain, coarse.peak_strain);
  form.holding_moment_nmm *= share(fine.holding_moment_nmm, coarse.holding_moment_nmm);
  form.bending_energy_nmm *= share(fine.bending_energy_nmm, coarse.bending_energy_nmm);
  form.membrane_energy_nmm *= share(fine.membrane_energy_nmm, coarse.membrane_energy_nmm);
}

Preview::Preview(std::shared_ptr<const Base> base) : base_(std::move(base)) {}

void Preview::make_mesh(Form& form) const {
  // The mesh comes lowered so that it meets the form, already corrected, at the edge's first place.
  opened::make_mesh(form);
  const double wider = form.wedge_rad / base_->fine.wedge_rad;
  const double met = base_->lacks({form.edge.front().x, form.edge.front().z}).up;
  for (std::size_t k = 0; k < form.mesh.points.size(); ++k) {
    form.mesh.points[k] = base_->corrected(form.mesh.flat[k], form.mesh.points[k], wider);
    form.mesh.points[k][2] -= met;
  }
}

void Preview::correct(const Panel& panel, Form& form) const {
  form.place = [base = base_, wider = form.wedge_rad / base_->fine.wedge_rad, coarse = std::move(form.place)](
                   leaf::Point flat) { return base->corrected(flat, coarse(flat), wider); };
  measure_by_place(panel, form);
  base_->correct_loads(form);
}

std::optional<Preview> Preview::from(const Panel& panel, const Form& form, const Preview* before,
                                     const Options& options) {
  Detail detail = Detail::quick;
  std::optional<Form> coarse;
  if (before != nullptr) {
    detail = before->base_->detail;
    coarse = before->base_->coarse_of(panel, options);
  }
  if (!coarse) {
    detail = detail_for(panel);
    coarse = coarse_from(panel, form, coarsely(options, detail));
  }
  if (!coarse) {
    return std::nullopt;
  }
  Form fine = form;
  fine.mesh = {};
  return Preview(std::make_shared<const Base>(
      Base{panel, std::move(fine), *std::move(coarse), detail, leaf::EdgeFinder(panel.outline)}));
}

std::optional<Form> Preview::open(const Panel& panel, const Options& options) const {
  auto form = base_->coarse_of(panel, options);
  if (form) {
    correct(panel, *form);
    if (options.mesh) {
      make_mesh(*form);
    }
  }
  return form;
}

} // namespace fanwright::opened
