#include "opened/carried.h"

#include "opened/tolerances.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace fanwright::opened {
namespace {

bool is_near(const leaf::Point& p, const leaf::Point& a, const leaf::Point& b) {
  const double dx = b.x - a.x;
  const double dz = b.z - a.z;
  const double square = dx * dx + dz * dz;
  const double t = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / square, 0.0, 1.0) : 0.0;
  const double x = a.x + t * dx - p.x;
  const double z = a.z + t * dz - p.z;
  return x * x + z * z <= tolerance::neighbour_mm * tolerance::neighbour_mm;
}

/// Does every corner of one ring lie near the other ring? Looks first where the corner before lay.
bool lies_near(const leaf::Ring& ring, const leaf::Ring& other) {
  std::size_t from = 0;
  return std::ranges::all_of(ring, [&](const leaf::Point& p) {
    for (std::size_t k = 0; k < other.size(); ++k) {
      const std::size_t at = (from + k) % other.size();
      if (is_near(p, other[at], other[(at + 1) % other.size()])) {
        from = at;
        return true;
      }
    }
    return false;
  });
}

bool near_each_other(const leaf::Ring& a, const leaf::Ring& b) { return lies_near(a, b) && lies_near(b, a); }

bool near_each_other(const leaf::Point& a, const leaf::Point& b) {
  return std::hypot(a.x - b.x, a.z - b.z) <= tolerance::neighbour_mm;
}

/// The place on the last grid, across its height, that a place on the new one came from: band edges from band edges.
double zeta_before(const std::vector<Band>& before, const std::vector<Band>& now, double zeta) {
  if (zeta <= now.front().low) {
    return before.front().low + zeta - now.front().low;
  }
  for (std::size_t k = 0; k < now.size(); ++k) {
    if (zeta <= now[k].high) {
      return before[k].low + (zeta - now[k].low) * (before[k].high - before[k].low) / (now[k].high - now[k].low);
    }
    if (k + 1 < now.size() && zeta < now[k + 1].low) {
      const double share = (zeta - now[k].high) / (now[k + 1].low - now[k].high);
      return before[k].high + share * (before[k + 1].low - before[k].high);
    }
  }
  return before.back().high + zeta - now.back().high;
}

/// Knots that a spline's control value depends on, and their middle.
std::array<double, 3> knots_of(const Spline& spline, int function) {
  const double u = spline.line(std::max(function - 1, 0));
  const double v = spline.line(std::min(function, spline.cells()));
  return {u, 0.5 * (u + v), v};
}

/// Where a control point lies in the flat leaf.
leaf::Point greville_place(const Grid& grid, const Pieces& pieces, int point) {
  const auto [i, j] = pieces.place[static_cast<std::size_t>(point)];
  return grid.flat_of(grid.across().greville(i), grid.up().greville(j));
}

} // namespace

bool is_neighbour(const Panel& a, const Panel& b) {
  const auto same_rows = [](const leaf::GlueRow& p, const leaf::GlueRow& q) {
    return p.side == q.side && near_each_other(p.from, q.from) && near_each_other(p.to, q.to);
  };
  return a.rows.size() == b.rows.size() && a.cut_outs.size() == b.cut_outs.size() &&
         std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), same_rows) && near_each_other(a.outline, b.outline) &&
         std::equal(a.cut_outs.begin(), a.cut_outs.end(), b.cut_outs.begin(),
                    [](const leaf::Ring& p, const leaf::Ring& q) { return near_each_other(p, q); });
}

namespace {

/// Takes places of a new leaf's grid from the last form.
class Carrier {
public:
  Carrier(const Equilibrium& last, const Cut& cut)
      : last_(last), cut_(cut), before_(last.mechanics.places(last.unknowns)),
        surface_(last.grid, last.pieces, before_) {}

  const Eigen::Matrix3Xd& before() const { return before_; }

  /// A control point of one of the new leaf's pieces.
  Eigen::Vector3d carried(const Piece& piece, int point) const {
    const Trapezoid& paper = piece.paper.front();
    const auto [i, j] = cut_.pieces.place[static_cast<std::size_t>(point)];
    const std::array<double, 3> across = knots_of(cut_.grid.across(), i), up = knots_of(cut_.grid.up(), j);
    // The old piece is looked for on the new one's paper, so that the two sides of a slit stay apart.
    const double x =
        std::clamp(across[1], std::min(paper.left_low, paper.left_high), std::max(paper.right_low, paper.right_high));
    const double zeta = zeta_then(std::clamp(up[1], paper.low, paper.high));
    const Piece& old = last_.pieces.pieces[static_cast<std::size_t>(last_.pieces.nearest(last_.grid, x, zeta))];
    const auto [near_x, near_zeta] = old.nearest(x, zeta);
    return std::hypot(near_x - x, near_zeta - zeta) < on_paper_mm ? within(old, across, up)
                                                                  : beyond(old, near_x, near_zeta, across[1], up[1]);
  }

private:
  static constexpr double on_paper_mm = 1e-6;

  double zeta_then(double zeta) const { return zeta_before(last_.grid.bands(), cut_.grid.bands(), zeta); }

  /// By what a place lies higher in the new leaf, flat.
  Eigen::Vector3d risen(double x, double zeta) const {
    return {0, 0, cut_.grid.flat_of(x, zeta).z - last_.grid.flat_of(x, zeta_then(zeta)).z};
  }

  // The control value of a quadratic spline at the inner knots u, v is the polar form of the surface there,
  // 2 p((u + v) / 2) - (p(u) + p(v)) / 2 for a polynomial p of second degree, and so in both directions.
  Eigen::Vector3d within(const Piece& old, const std::array<double, 3>& across, const std::array<double, 3>& up) const {
    constexpr std::array<double, 3> weight{-0.5, 2.0, -0.5};
    Eigen::Vector3d place = Eigen::Vector3d::Zero();
    for (std::size_t q = 0; q < 3; ++q) {
      const double then = zeta_then(up[q]);
      for (std::size_t p = 0; p < 3; ++p) {
        place += weight[p] * weight[q] * (surface_.at(old, across[p], then) + risen(across[p], up[q]));
      }
    }
    return place;
  }

  // Beyond its edge the sheet goes on straight: the cells' polynomials would bend and stretch it there, with a hundred
  // times the energy of the whole form two millimetres on.
  Eigen::Vector3d beyond(const Piece& old, double edge_x, double edge_zeta, double x, double zeta) const {
    const leaf::Point flat = last_.grid.flat_of(x, zeta_then(zeta)), edge = last_.grid.flat_of(edge_x, edge_zeta);
    return surface_.at(old, edge_x, edge_zeta) +
           surface_.tangents(old, edge_x, edge_zeta) * Eigen::Vector2d(flat.x - edge.x, flat.z - edge.z) +
           risen(x, zeta);
  }

  const Equilibrium& last_;
  const Cut& cut_;
  const Eigen::Matrix3Xd before_;
  const Surface surface_;
};

} // namespace

Eigen::Matrix3Xd carried_to_leaf(const Equilibrium& last, const Cut& cut, const std::vector<int>& alike) {
  const Pieces& pieces = cut.pieces;
  const Carrier carrier(last, cut);
  Eigen::Matrix3Xd places(3, pieces.points);
  std::vector<bool> done(static_cast<std::size_t>(pieces.points), false);
  for (std::size_t p = 0; p < alike.size(); ++p) {
    for (std::size_t k = 0; alike[p] >= 0 && k < 9; ++k) {
      const int point = pieces.pieces[p].points[k];
      places.col(point) = carrier.before().col(last.pieces.pieces[static_cast<std::size_t>(alike[p])].points[k]);
      done[static_cast<std::size_t>(point)] = true;
    }
  }
  for (const Piece& piece : pieces.pieces) {
    for (const int point : piece.points) {
      if (!done[static_cast<std::size_t>(point)]) {
        done[static_cast<std::size_t>(point)] = true;
        places.col(point) = carrier.carried(piece, point);
      }
    }
  }
  return places;
}

void carry_into_wedge(const Equilibrium& last, double thickness_mm, double wedge_rad, const Cut& cut,
                      Eigen::Matrix3Xd& places) {
  const double before = last.mechanics.wedge_rad();
  const double ratio = wedge_rad / before;
  const double hub_before = 2 * last.mechanics.clearance_mm() / before;
  const double hub = thickness_mm / wedge_rad;
  for (int k = 0; k < cut.pieces.points; ++k) {
    const leaf::Point flat = greville_place(cut.grid, cut.pieces, k);
    const double drawn_in = std::hypot(places(0, k), places(1, k)) - flat.x - hub_before;
    const double radius = flat.x + hub + ratio * ratio * drawn_in;
    const double angle = ratio * std::atan2(places(1, k), places(0, k));
    places.col(k) << radius * std::cos(angle), radius * std::sin(angle),
        flat.z + ratio * ratio * (places(2, k) - flat.z);
  }
}

Eigen::Matrix3Xd moves_with_wedge(const Equilibrium& form) {
  const double wedge = form.mechanics.wedge_rad();
  const double hub = 2 * form.mechanics.clearance_mm() / wedge;
  Eigen::Matrix3Xd moves = form.mechanics.places(form.unknowns);
  for (int k = 0; k < form.pieces.points; ++k) {
    const Eigen::Vector3d place = moves.col(k);
    const leaf::Point flat = greville_place(form.grid, form.pieces, k);
    const double radius = std::hypot(place[0], place[1]);
    const double angle = std::atan2(place[1], place[0]);
    const double outward = (2 * (radius - flat.x - hub) - hub) / wedge;
    const double around = radius * angle / wedge;
    moves.col(k) << outward * std::cos(angle) - around * std::sin(angle),
        outward * std::sin(angle) + around * std::cos(angle), 2 * (place[2] - flat.z) / wedge;
  }
  return moves;
}

} // namespace fanwright::opened
