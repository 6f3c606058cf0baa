#include "opened/guess.h"

#include <algorithm>
#include <cmath>

namespace fanwright::opened {
namespace {

/// Height lost per gap is about 0.6 (beta r)^2 / s: between a taut strip (0.5) and a free one (0.75).
constexpr double shrink_factor = 0.6;
/// Never more than half of a gap, so that the guess stays a sheet for tightly locked rows.
constexpr double most_shrink = 0.5;
/// How far beyond its end a row still holds the paper, in spacings of rows. With 0.5 tiers that hang free take twice
/// the steps to come to rest, with 1 the widest do.
constexpr double hold_spacings = 2.0;

double wall_of(const Panel& panel, const Band& band) {
  return panel.rows[static_cast<std::size_t>(band.row)].side == design::Side::inside ? 0.0 : 1.0;
}

/// Share at this height where only the rows that reach out to `radius` hold the paper.
double share_held(const Panel& panel, const std::vector<Band>& bands, double radius, double zeta) {
  const Band* lower = nullptr;
  for (const Band& band : bands) {
    if (band.to_x < radius) {
      continue;
    }
    if (zeta >= band.low) {
      lower = &band;
    } else if (lower == nullptr) {
      return wall_of(panel, band);
    } else {
      const double from = wall_of(panel, *lower);
      const double t = std::clamp((zeta - lower->high) / (band.low - lower->high), 0.0, 1.0);
      return from + (wall_of(panel, band) - from) * t * t * (3 - 2 * t);
    }
  }
  return lower != nullptr ? wall_of(panel, *lower) : 0.5;
}

/// Share of a place `x` from the spine. A row holds the paper beyond its end less and less: what hangs out from the
/// rows is not pleated, but goes on as straight as it can. The farthest row holds all that is farther.
double share_at(const Panel& panel, const std::vector<Band>& bands, double x, double zeta) {
  constexpr int steps = 4;
  const double farthest = std::ranges::max(bands, {}, &Band::to_x).to_x;
  const double spacing =
      (bands.back().low - bands.front().low) / static_cast<double>(std::max<std::size_t>(bands.size(), 2) - 1);
  double share = 0;
  for (int k = 0; k < steps; ++k) {
    const double back = hold_spacings * spacing * (k + 0.5) / steps;
    share += share_held(panel, bands, std::min(x - back, farthest), zeta) / steps;
  }
  return share;
}

double height_lost(const Panel& panel, const std::vector<Band>& bands, double x, double zeta, double wedge_rad) {
  const double hub = panel.sheet.thickness_mm / wedge_rad;
  double lost = 0;
  for (std::size_t k = 0; k + 1 < bands.size(); ++k) {
    const double gap = bands[k + 1].low - bands[k].high;
    if (gap <= 0 || wall_of(panel, bands[k + 1]) == wall_of(panel, bands[k])) {
      continue;
    }
    const double t = std::clamp((zeta - bands[k].high) / gap, 0.0, 1.0);
    const double reach = wedge_rad * (hub + std::min(x, std::max(bands[k].to_x, bands[k + 1].to_x)));
    lost += t * std::min(shrink_factor * reach * reach / gap, most_shrink * gap);
  }
  return lost;
}

} // namespace

Eigen::Matrix3Xd first_guess(const Panel& panel, const Grid& grid, const Pieces& pieces, double wedge_rad) {
  const double clearance = 0.5 * panel.sheet.thickness_mm;
  const double hub = panel.sheet.thickness_mm / wedge_rad;
  Eigen::Matrix3Xd places(3, pieces.points);
  for (int k = 0; k < pieces.points; ++k) {
    const auto& place = pieces.place[static_cast<std::size_t>(k)];
    const double x = grid.across().greville(place[0]);
    const double zeta = grid.up().greville(place[1]);
    const double share = share_at(panel, grid.bands(), x, zeta);
    const double lost = height_lost(panel, grid.bands(), x, zeta, wedge_rad);
    const double angle = share * wedge_rad;
    const double on_a = (1 - share) * clearance;
    const double on_b = share * clearance;
    places.col(k) << (hub + x) * std::cos(angle) + on_b * std::sin(wedge_rad),
        (hub + x) * std::sin(angle) + on_a - on_b * std::cos(wedge_rad), grid.flat_of(x, zeta).z - lost;
  }
  return places;
}

std::vector<RowLock> row_locks(const Panel& panel, const Grid& grid, double wedge_rad) {
  std::vector<RowLock> locks;
  const std::vector<Band>& bands = grid.bands();
  for (std::size_t k = 0; k + 1 < bands.size(); ++k) {
    const Band& lower = bands[k];
    const Band& upper = bands[k + 1];
    const double inner = std::max(lower.from_x, upper.from_x);
    const double outer = std::min(lower.to_x, upper.to_x);
    if (wall_of(panel, lower) == wall_of(panel, upper) || inner >= outer) {
      continue;
    }
    RowLock lock{lower.row, upper.row, 0};
    for (const double x : {inner, outer}) {
      const double clear = grid.flat_of(x, upper.low).z - grid.flat_of(x, lower.high).z;
      if (clear > 0) {
        lock.ratio = std::max(lock.ratio, wedge_rad * x / clear);
      }
    }
    locks.push_back(lock);
  }
  return locks;
}

} // namespace fanwright::opened
