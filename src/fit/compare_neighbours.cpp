#include "fit/compare_neighbours.h"

#include "opened/crease.h"
#include "opened/equilibrium.h"
#include "opened/factor.h"
#include "opened/measure.h"
#include "opened/relax.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

namespace fanwright::fit {
namespace {

std::optional<Extent> extent_of(const std::variant<opened::Form, opened::Failure>& form) {
  if (const auto* found = std::get_if<opened::Form>(&form)) {
    return Extent{found->height_mm, found->diameter_mm};
  }
  return std::nullopt;
}

} // namespace

Neighbours::Neighbours(opened::Panel panel, opened::Form form, std::function<bool()> cancelled, opened::Solver solver)
    : panel_(std::move(panel)), form_(std::move(form)), cancelled_(std::move(cancelled)), solver_(std::move(solver)) {}

std::optional<Extent> Neighbours::warm(const opened::Panel& panel) {
  opened::Options options;
  options.cancelled = cancelled_;
  options.mesh = false;
  return extent_of(solver_.open(panel, options));
}

std::optional<Extent> Neighbours::with_leaves(int leaves) {
  opened::Panel other = panel_;
  other.leaves = leaves;
  return warm(other);
}

std::optional<Extent> Neighbours::with_opening(double opening_deg) {
  opened::Panel other = panel_;
  other.opening_deg = opening_deg;
  return warm(other);
}

std::optional<Extent> Neighbours::with_caliper(double caliper_mm) {
  opened::Panel other = panel_;
  other.sheet.thickness_mm = caliper_mm;
  return warm(other);
}

// Without weight only ratios of lengths count: a leaf s times as large in paper of caliper t opens into s times the
// form of this leaf in paper of caliper t / s.
std::optional<Extent> Neighbours::scaled(double scale) {
  auto extent = with_caliper(panel_.sheet.thickness_mm / scale);
  if (extent) {
    extent->height_mm *= scale;
    extent->diameter_mm *= scale;
  }
  return extent;
}

std::optional<Extent> Neighbours::with_bending(double factor) const {
  const opened::Equilibrium& base = *form_.equilibrium;
  const opened::OneThread one_thread;
  const opened::Mechanics other = base.mechanics.in_paper({1, factor, 1});
  opened::DampedFactor inverse(base.mechanics.pattern(), 1.0);
  opened::Vector unknowns = base.unknowns;
  opened::Ground ground;
  if (!inverse.prepare(other, unknowns, other.forces(unknowns), ground)) {
    return std::nullopt;
  }
  const auto result = opened::relax(other, inverse, unknowns, std::move(ground),
                                    {opened::tolerance::relax_energy_share, 0}, cancelled_);
  if (!result.converged) {
    return std::nullopt;
  }
  opened::Form form;
  opened::measure_edge(panel_, opened::Surface(base.grid, base.pieces, other.places(unknowns)), form);
  return Extent{form.height_mm, form.diameter_mm};
}

std::optional<Extent> Neighbours::creased(double share) {
  const opened::Equilibrium& base = *form_.equilibrium;
  if (!creases_tried_) {
    creases_tried_ = true;
    if (opened::row_edge_strain(base) > opened::tolerance::set_strain) {
      const opened::OneThread one_thread;
      const opened::Creased sheet = opened::creased(panel_, base, cancelled_);
      if (sheet.result.converged) {
        opened::Form form;
        opened::measure_edge(panel_, opened::Surface(sheet.grid, sheet.pieces, sheet.places), form);
        creased_ = Extent{form.height_mm, form.diameter_mm};
      }
    }
  }
  if (!creased_) {
    return std::nullopt;
  }
  return Extent{std::lerp(form_.height_mm, creased_->height_mm, share),
                std::lerp(form_.diameter_mm, creased_->diameter_mm, share)};
}

/// Other rows need another grid. Both forms are coarse; their difference is what counts.
std::optional<Extent> Neighbours::other_rows(const opened::Panel& panel) {
  if (!coarse_base_) {
    coarse_base_ = coarse(panel_);
  }
  const auto extent = coarse_base_ ? coarse(panel) : std::nullopt;
  if (!extent) {
    return std::nullopt;
  }
  return Extent{form_.height_mm + extent->height_mm - coarse_base_->height_mm,
                form_.diameter_mm + extent->diameter_mm - coarse_base_->diameter_mm};
}

std::optional<Extent> Neighbours::coarse(const opened::Panel& panel) {
  opened::Options options;
  options.cancelled = cancelled_;
  options.mesh = false;
  options.cells_per_gap = 5;
  options.cell_mm = std::clamp(std::max(form_.height_mm, form_.diameter_mm) / 32, 2.5, 8.0);
  return extent_of(coarse_solver_.open(panel, options));
}

std::optional<Extent> Neighbours::with_rows_wider(double by_mm) {
  opened::Panel other = panel_;
  for (leaf::GlueRow& row : other.rows) {
    row.width_mm += by_mm;
  }
  return other_rows(other);
}

std::optional<Extent> Neighbours::with_rows_moved(double up_mm) {
  opened::Panel other = panel_;
  for (leaf::GlueRow& row : other.rows) {
    row.from.z += up_mm;
    row.to.z += up_mm;
  }
  return other_rows(other);
}

std::optional<Extent> Neighbours::with_rows_scaled(double scale) {
  opened::Panel other = panel_;
  const double foot = form_.edge.front().z;
  for (leaf::GlueRow& row : other.rows) {
    row.from = {scale * row.from.x, foot + scale * (row.from.z - foot)};
    row.to = {scale * row.to.x, foot + scale * (row.to.z - foot)};
    row.width_mm *= scale;
  }
  return other_rows(other);
}

Extent Neighbours::grown(double across, double along) const {
  return {form_.height_mm * (1 + along), form_.diameter_mm * (1 + across)};
}

} // namespace fanwright::fit
