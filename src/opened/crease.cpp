#include "opened/crease.h"

#include "opened/relax.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>

namespace fanwright::opened {
namespace {

/// One edge of a row that looks into a gap.
struct RowEdge {
  double zeta = 0;
  bool upward = false; ///< does the gap lie above it?
  double from_x = 0, to_x = 0;
};

/// Edges of all rows that look at a neighbouring row.
std::vector<RowEdge> edges_of(const Grid& grid) {
  std::vector<RowEdge> edges;
  const std::vector<Band>& bands = grid.bands();
  for (std::size_t k = 0; k + 1 < bands.size(); ++k) {
    edges.push_back({bands[k].high, true, bands[k].from_x, bands[k].to_x});
    edges.push_back({bands[k + 1].low, false, bands[k + 1].from_x, bands[k + 1].to_x});
  }
  return edges;
}

double middle(const Spline& spline, int cell) { return 0.5 * (spline.line(cell) + spline.line(cell + 1)); }

/// Curvature along the leaf's height in the middle of a cell, 1/mm; 0 where paper fills less than `least_share` of it.
double curvature(const Equilibrium& sheet, const Eigen::Matrix3Xd& places, int i, int j, double least_share) {
  const Grid& grid = sheet.grid;
  const std::size_t cell = static_cast<std::size_t>(i + grid.cells_across() * j);
  const double area = grid.across().width(i) * grid.up().width(j);
  const Basis n = grid.basis(i, j, middle(grid.across(), i), middle(grid.up(), j));
  double most = 0;
  for (int p = sheet.pieces.first_of_cell[cell]; p < sheet.pieces.first_of_cell[cell + 1]; ++p) {
    const Piece& piece = sheet.pieces.pieces[static_cast<std::size_t>(p)];
    if (piece.area < least_share * area) {
      continue;
    }
    Eigen::Vector3d bend = Eigen::Vector3d::Zero();
    for (std::size_t a = 0; a < 9; ++a) {
      bend += n.dzz[a] * places.col(piece.points[a]);
    }
    most = std::max(most, bend.norm());
  }
  return most;
}

/// Surface strain of the elastic form at a row's edge in column `i` of the grid. Splines of second degree hold one
/// curvature a cell: the edge's follows from the two cells beside it, which a clamped strip's curvature crosses
/// straight.
double strain_at(const Equilibrium& elastic, const Eigen::Matrix3Xd& places, const RowEdge& edge, int i,
                 double least_share) {
  const int way = edge.upward ? 1 : -1;
  const Spline& up = elastic.grid.up();
  const int beside = up.cell_of(edge.zeta + way * 0.5 * tolerance::strip_line_mm);
  const double near = curvature(elastic, places, i, beside, least_share);
  const int next = beside + way;
  if (next < 0 || next >= up.cells()) {
    return elastic.mechanics.clearance_mm() * near;
  }
  const double far = curvature(elastic, places, i, next, least_share);
  const double share = up.width(beside) / (up.width(beside) + up.width(next));
  return elastic.mechanics.clearance_mm() * std::max(near, near + share * (near - far));
}

bool within(const RowEdge& edge, double x) { return x > edge.from_x && x < edge.to_x; }

/// Control points of the same surface on a grid that holds all lines of the coarser one and more across its height:
/// with u, v the two inner knots of a function, its control value is the polar form of the coarse surface at (u, v),
/// p((u + v) / 2) - p'' (v - u)^2 / 8 for a polynomial p of second degree.
Eigen::Matrix3Xd refined(const Equilibrium& coarse, const Grid& grid, const Pieces& pieces) {
  const Eigen::Matrix3Xd given = coarse.mechanics.places(coarse.unknowns);
  Eigen::Matrix3Xd places(3, pieces.points);
  const Spline& up = grid.up();
  for (const Piece& piece : pieces.pieces) {
    const Trapezoid& paper = piece.paper.front();
    const double x = 0.25 * (paper.left_low + paper.right_low + paper.left_high + paper.right_high);
    const int from = coarse.pieces.nearest(coarse.grid, x, 0.5 * (paper.low + paper.high));
    const Piece& old = coarse.pieces.pieces[static_cast<std::size_t>(from)];
    for (int b = 0; b < 3; ++b) {
      const double u = up.line(std::max(piece.j + b - 1, 0));
      const double v = up.line(std::min(piece.j + b, up.cells()));
      const SplineValues s = coarse.grid.up().at(old.j, 0.5 * (u + v));
      for (int a = 0; a < 3; ++a) {
        Eigen::Vector3d place = Eigen::Vector3d::Zero();
        for (std::size_t c = 0; c < 3; ++c) {
          const double share = s.value[c] - s.second[c] * (v - u) * (v - u) / 8;
          place += share * given.col(old.points[static_cast<std::size_t>(a) + 3 * c]);
        }
        places.col(piece.points[static_cast<std::size_t>(a + 3 * b)]) = place;
      }
    }
  }
  return places;
}

/// Takes the bending stiffness off the cells beside the rows' edges that take a set.
void crease(const Equilibrium& elastic, const Grid& grid, const Pieces& pieces, Mechanics& mechanics) {
  const Eigen::Matrix3Xd places = elastic.mechanics.places(elastic.unknowns);
  for (const RowEdge& edge : edges_of(grid)) {
    const double inside = edge.zeta + (edge.upward ? 1 : -1) * 1e-3 * tolerance::strip_line_mm;
    const int j = grid.up().cell_of(inside);
    for (int i = 0; i < grid.cells_across(); ++i) {
      if (!within(edge, middle(grid.across(), i)) ||
          strain_at(elastic, places, edge, i, 0.0) <= tolerance::set_strain) {
        continue;
      }
      const std::size_t cell = static_cast<std::size_t>(i + grid.cells_across() * j);
      for (int p = pieces.first_of_cell[cell]; p < pieces.first_of_cell[cell + 1]; ++p) {
        mechanics.make_hinge(p, tolerance::ghost_share);
      }
    }
  }
}

} // namespace

double row_edge_strain(const Equilibrium& elastic) {
  const Eigen::Matrix3Xd places = elastic.mechanics.places(elastic.unknowns);
  double largest = 0;
  for (const RowEdge& edge : edges_of(elastic.grid)) {
    for (int i = 0; i < elastic.grid.cells_across(); ++i) {
      if (within(edge, middle(elastic.grid.across(), i))) {
        largest = std::max(largest, strain_at(elastic, places, edge, i, tolerance::strain_share));
      }
    }
  }
  return largest;
}

Creased creased(const Panel& panel, const Equilibrium& elastic, const std::function<bool()>& cancelled) {
  Fineness fineness = elastic.fineness;
  fineness.crease_mm = panel.sheet.thickness_mm;
  Grid grid(panel, fineness);
  Pieces pieces = cut(panel, grid);
  Mechanics mechanics(panel, grid, pieces);
  crease(elastic, grid, pieces, mechanics);
  Eigen::Matrix3Xd places = refined(elastic, grid, pieces);
  mechanics.settle(places);
  mechanics.pin_height(places);
  Vector unknowns = mechanics.unknowns_of(places);
  DampedFactor factor(mechanics.pattern(), 1.0);
  Ground ground;
  NewtonResult result;
  if (factor.prepare(mechanics, unknowns, mechanics.forces(unknowns), ground)) {
    result = relax(mechanics, factor, unknowns, std::move(ground), {tolerance::crease_energy_share, 0}, cancelled);
  }
  result.factorisations++;
  return {result, mechanics.places(unknowns), std::move(grid), std::move(pieces)};
}

} // namespace fanwright::opened
