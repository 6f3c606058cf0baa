#include "opened/mechanics.h"

#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::opened {
namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

/// Plane-stress stiffness of an orthotropic sheet on (exx, ezz, 2 exz), MPa.
Eigen::Matrix3d plane_stress(const Sheet& sheet) {
  const double share = 1.0 - sheet.poisson * sheet.poisson;
  const double mixed = sheet.poisson * std::sqrt(sheet.modulus_x_mpa * sheet.modulus_z_mpa) / share;
  Eigen::Matrix3d c;
  c << sheet.modulus_x_mpa / share, mixed, 0, mixed, sheet.modulus_z_mpa / share, 0, 0, 0, sheet.shear_mpa;
  return c;
}

} // namespace

double wedge_of(const Panel& panel) { return panel.opening_deg * radians_per_degree / (2.0 * panel.leaves); }

Mechanics::Mechanics(const Panel& panel, const Grid& grid, const Pieces& pieces)
    : clearance_(0.5 * panel.sheet.thickness_mm), points_(pieces.points) {
  const double t = panel.sheet.thickness_mm;
  membrane_ = t * plane_stress(panel.sheet);
  bend_ = t * t / 12.0 * membrane_;
  turn_wall_b(wedge_of(panel));
  hold_points(panel, grid, pieces);
  number_unknowns(grid, pieces);
  for (const Piece& piece : pieces.pieces) {
    add_element(grid, piece);
  }
  make_pattern();
}

void Mechanics::turn_wall_b(double wedge_rad) {
  wedge_ = wedge_rad;
  normal_b_ = {std::sin(wedge_), -std::cos(wedge_), 0};
  radial_b_ = {std::cos(wedge_), std::sin(wedge_), 0};
}

Mechanics Mechanics::in_wedge_of(double wedge_rad) const {
  Mechanics other = *this;
  other.turn_wall_b(wedge_rad);
  return other;
}

Mechanics Mechanics::in_paper(const PaperChange& change) const {
  Mechanics other = *this;
  other.membrane_ *= change.membrane;
  other.bend_ *= change.bending;
  other.clearance_ *= change.caliper;
  for (Element& element : other.elements_) {
    element.bending *= change.bending;
  }
  return other;
}

void Mechanics::hold_points(const Panel& panel, const Grid& grid, const Pieces& pieces) {
  hold_.assign(static_cast<std::size_t>(points_), Hold::free);
  for (std::size_t k = 0; k < hold_.size(); ++k) {
    if (pieces.place[k][0] == 0) {
      hold_[k] = Hold::wall_a;
    }
  }
  for (const Piece& piece : pieces.pieces) {
    const double x = 0.5 * (grid.across().line(piece.i) + grid.across().line(piece.i + 1));
    const double zeta = 0.5 * (grid.up().line(piece.j) + grid.up().line(piece.j + 1));
    for (const Band& band : grid.bands()) {
      if (x < band.from_x || x > band.to_x || zeta < band.low || zeta > band.high) {
        continue;
      }
      const bool inside = panel.rows[static_cast<std::size_t>(band.row)].side == design::Side::inside;
      for (const int point : piece.points) {
        hold_[static_cast<std::size_t>(point)] = inside ? Hold::wall_a : Hold::wall_b;
      }
    }
  }
}

void Mechanics::number_unknowns(const Grid& grid, const Pieces& pieces) {
  // The pinned height: a held point as near as can be to the middle of the leaf, where nothing pulls at it.
  const double middle = 0.5 * (grid.up().line(0) + grid.up().line(grid.cells_up()));
  double nearest = 1e300;
  for (int k = 0; k < points_; ++k) {
    const std::size_t s = static_cast<std::size_t>(k);
    const double away = std::abs(grid.up().greville(pieces.place[s][1]) - middle);
    if (hold_[s] != Hold::free && pieces.place[s][0] > 0 && away < nearest - 1e-9) {
      nearest = away;
      pinned_ = k;
    }
  }
  index_.assign(static_cast<std::size_t>(points_), {-1, -1, -1});
  for (int k = 0; k < points_; ++k) {
    auto& index = index_[static_cast<std::size_t>(k)];
    index[0] = unknowns_++;
    if (hold_[static_cast<std::size_t>(k)] == Hold::free) {
      index[1] = unknowns_++;
    }
    if (k != pinned_) {
      index[2] = unknowns_++;
    }
  }
}

void Mechanics::add_element(const Grid& grid, const Piece& piece) {
  Element element;
  element.points = piece.points;
  element.bending.setZero();
  double x_sum = 0;
  double zeta_sum = 0;
  const auto add_bending = [&](const Basis& n, double weight) {
    for (std::size_t a = 0; a < 9; ++a) {
      const Eigen::Vector3d curve_a = bend_ * Eigen::Vector3d(n.dxx[a], n.dzz[a], 2 * n.dxz[a]);
      for (std::size_t b = 0; b < 9; ++b) {
        element.bending(static_cast<int>(a), static_cast<int>(b)) +=
            weight * curve_a.dot(Eigen::Vector3d(n.dxx[b], n.dzz[b], 2 * n.dxz[b]));
      }
    }
  };
  const auto over = [&](const Trapezoid& t, const auto& visit) {
    constexpr std::array<double, 3> spot{0.1127016653792583, 0.5, 0.8872983346207417};
    constexpr std::array<double, 3> share{5.0 / 18, 8.0 / 18, 5.0 / 18};
    for (std::size_t q = 0; q < 3; ++q) {
      const double zeta = t.low + spot[q] * (t.high - t.low);
      const double left = t.left_low + spot[q] * (t.left_high - t.left_low);
      const double right = t.right_low + spot[q] * (t.right_high - t.right_low);
      for (std::size_t p = 0; p < 3; ++p) {
        visit(left + spot[p] * (right - left), zeta, share[p] * share[q] * (right - left) * (t.high - t.low));
      }
    }
  };
  for (const Trapezoid& t : piece.paper) {
    over(t, [&](double x, double zeta, double weight) {
      const Basis n = grid.basis(piece.i, piece.j, x, zeta);
      add_bending(n, weight * n.stretch);
      element.area += weight * n.stretch;
      x_sum += weight * x;
      zeta_sum += weight * zeta;
    });
  }
  const double cell_area = (grid.across().line(piece.i + 1) - grid.across().line(piece.i)) *
                           (grid.up().line(piece.j + 1) - grid.up().line(piece.j));
  element.mostly_paper = piece.area >= tolerance::strain_share * cell_area;
  if (!piece.whole) {
    const double x0 = grid.across().line(piece.i);
    const double x1 = grid.across().line(piece.i + 1);
    const Trapezoid cell{grid.up().line(piece.j), grid.up().line(piece.j + 1), x0, x1, x0, x1};
    over(cell, [&](double x, double zeta, double weight) {
      const Basis n = grid.basis(piece.i, piece.j, x, zeta);
      add_bending(n, tolerance::ghost_share * weight * n.stretch);
    });
  }
  const Basis n = grid.basis(piece.i, piece.j, x_sum / piece.area, zeta_sum / piece.area);
  element.dx = n.dx;
  element.dz = n.dz;
  element.first_contact = static_cast<int>(contacts_.size());
  add_contacts(grid, piece);
  element.last_contact = static_cast<int>(contacts_.size());
  elements_.push_back(element);
}

void Mechanics::add_contacts(const Grid& grid, const Piece& piece) {
  constexpr std::array<double, 2> spot{0.2113248654051871, 0.7886751345948129};
  for (const Trapezoid& t : piece.paper) {
    for (const double v : spot) {
      const double zeta = t.low + v * (t.high - t.low);
      const double left = t.left_low + v * (t.left_high - t.left_low);
      const double right = t.right_low + v * (t.right_high - t.right_low);
      for (const double u : spot) {
        const Basis n = grid.basis(piece.i, piece.j, left + u * (right - left), zeta);
        const double area = 0.25 * (right - left) * (t.high - t.low) * n.stretch;
        contacts_.push_back({n.value, tolerance::contact_mpa_per_mm * area});
      }
      if (piece.i == 0 && t.left_low < 1e-9 && t.left_high < 1e-9) {
        const Basis n = grid.basis(0, piece.j, 0.0, zeta);
        const double area = 0.5 * (t.high - t.low) * tolerance::spine_contact_width_mm;
        contacts_.push_back({n.value, tolerance::contact_mpa_per_mm * area});
      }
    }
  }
}

void Mechanics::make_pattern() {
  std::vector<Eigen::Triplet<double>> entries;
  const auto each = [&](const Element& element, const auto& visit) {
    for (std::size_t b = 0; b < 27; ++b) {
      const int column = index_[static_cast<std::size_t>(element.points[b / 3])][b % 3];
      for (std::size_t a = 0; a < 27; ++a) {
        const int row = index_[static_cast<std::size_t>(element.points[a / 3])][a % 3];
        visit(a + 27 * b, row, column);
      }
    }
  };
  for (const Element& element : elements_) {
    each(element, [&](std::size_t, int row, int column) {
      if (row >= column && column >= 0) {
        entries.emplace_back(row, column, 0.0);
      }
    });
  }
  pattern_.resize(unknowns_, unknowns_);
  pattern_.setFromTriplets(entries.begin(), entries.end());
  pattern_.makeCompressed();
  const int* outer = pattern_.outerIndexPtr();
  const int* inner = pattern_.innerIndexPtr();
  for (Element& element : elements_) {
    each(element, [&](std::size_t slot, int row, int column) {
      element.slots[slot] = -1;
      if (row >= column && column >= 0) {
        const int* found = std::lower_bound(inner + outer[column], inner + outer[column + 1], row);
        element.slots[slot] = static_cast<int>(found - inner);
      }
    });
  }
}

Eigen::Matrix3Xd Mechanics::places(const Vector& unknowns) const {
  Eigen::Matrix3Xd all(3, points_);
  for (int k = 0; k < points_; ++k) {
    const auto& index = index_[static_cast<std::size_t>(k)];
    const double height = index[2] < 0 ? pinned_height_ : unknowns[index[2]];
    switch (hold_[static_cast<std::size_t>(k)]) {
    case Hold::free:
      all.col(k) << unknowns[index[0]], unknowns[index[1]], height;
      break;
    case Hold::wall_a:
      all.col(k) << unknowns[index[0]], clearance_, height;
      break;
    case Hold::wall_b:
      all.col(k) = unknowns[index[0]] * radial_b_ + clearance_ * normal_b_;
      all(2, k) = height;
      break;
    }
  }
  return all;
}

Eigen::Matrix3Xd Mechanics::moves(const Vector& step) const {
  Eigen::Matrix3Xd all(3, points_);
  for (int k = 0; k < points_; ++k) {
    const auto& index = index_[static_cast<std::size_t>(k)];
    const bool on_b = hold_[static_cast<std::size_t>(k)] == Hold::wall_b;
    all.col(k) = step[index[0]] * (on_b ? radial_b_ : Eigen::Vector3d(1, 0, 0));
    if (index[1] >= 0) {
      all(1, k) = step[index[1]];
    }
    all(2, k) = index[2] < 0 ? 0.0 : step[index[2]];
  }
  return all;
}

Vector Mechanics::unknowns_of(const Eigen::Matrix3Xd& places) const {
  Vector unknowns(unknowns_);
  for (int k = 0; k < points_; ++k) {
    const auto& index = index_[static_cast<std::size_t>(k)];
    const bool on_b = hold_[static_cast<std::size_t>(k)] == Hold::wall_b;
    unknowns[index[0]] = on_b ? radial_b_.dot(places.col(k)) : places(0, k);
    if (index[1] >= 0) {
      unknowns[index[1]] = places(1, k);
    }
    if (index[2] >= 0) {
      unknowns[index[2]] = places(2, k);
    }
  }
  return unknowns;
}

void Mechanics::settle(Eigen::Matrix3Xd& places) const {
  for (int k = 0; k < points_; ++k) {
    switch (hold_[static_cast<std::size_t>(k)]) {
    case Hold::free:
      break;
    case Hold::wall_a:
      places(1, k) = clearance_;
      break;
    case Hold::wall_b:
      places.col(k) += (clearance_ - normal_b_.dot(places.col(k))) * normal_b_;
      break;
    }
  }
}

} // namespace fanwright::opened
