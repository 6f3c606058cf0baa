#include "opened/guess.h"

#include <algorithm>
#include <cmath>

namespace fanwright::opened {
namespace {

/// Height lost per gap is about 0.6 (beta r)^2 / s: between a taut strip (0.5) and a free one (0.75).
constexpr double shrink_factor = 0.6;
/// Never more than half of a gap, so that the guess stays a sheet for tightly locked rows.
constexpr double most_shrink = 0.5;

double wall_of(const Panel& panel, const Band& band) {
  return panel.rows[static_cast<std::size_t>(band.row)].side == design::Side::inside ? 0.0 : 1.0;
}

struct Swing {
  double share = 0; ///< 0 on wall A, 1 on wall B
  double lost = 0;  ///< height lost below this place, mm
};

Swing swing_at(const Panel& panel, const Grid& grid, double radius, double zeta, double wedge_rad) {
  const std::vector<Band>& bands = grid.bands();
  Swing swing{wall_of(panel, bands.front()), 0.0};
  for (std::size_t k = 0; k + 1 < bands.size(); ++k) {
    const double change = wall_of(panel, bands[k + 1]) - wall_of(panel, bands[k]);
    const double gap = bands[k + 1].low - bands[k].high;
    if (gap <= 0 || change == 0.0) {
      continue;
    }
    const double t = std::clamp((zeta - bands[k].high) / gap, 0.0, 1.0);
    swing.share += change * t * t * (3 - 2 * t);
    const double reach = wedge_rad * radius;
    swing.lost += t * std::min(shrink_factor * reach * reach / gap, most_shrink * gap);
  }
  return swing;
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
    const Swing swing = swing_at(panel, grid, hub + x, zeta, wedge_rad);
    const double angle = swing.share * wedge_rad;
    const double on_a = (1 - swing.share) * clearance;
    const double on_b = swing.share * clearance;
    places.col(k) << (hub + x) * std::cos(angle) + on_b * std::sin(wedge_rad),
        (hub + x) * std::sin(angle) + on_a - on_b * std::cos(wedge_rad), grid.flat_of(x, zeta).z - swing.lost;
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
