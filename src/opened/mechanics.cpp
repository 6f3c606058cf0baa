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

Mechanics::Mechanics(const Panel& panel, const Grid& grid, const Pieces& pieces, const Mechanics* before,
                     const std::vector<int>& alike)
    : clearance_(0.5 * panel.sheet.thickness_mm), points_(pieces.points) {
  const double t = panel.sheet.thickness_mm;
  membrane_ = t * plane_stress(panel.sheet);
  bend_ = t * t / 12.0 * membrane_;
  turn_wall_b(wedge_of(panel));
  hold_points(panel, grid, pieces);
  pin_middle(grid, pieces);
  number_unknowns();
  elements_.reserve(pieces.pieces.size());
  const bool same_paper = before != nullptr && before->membrane_ == membrane_ && before->bend_ == bend_;
  for (std::size_t p = 0; p < pieces.pieces.size(); ++p) {
    if (same_paper && alike[p] >= 0) {
      add_element_like(*before, alike[p], pieces.pieces[p].points);
    } else {
      add_element(grid, pieces.pieces[p]);
    }
  }
  make_pattern();
}

Mechanics::Mechanics(const Sheet& sheet, const Grid& grid, const Pieces& pieces, const Supports& supports)
    : clearance_(0.5 * sheet.thickness_mm), membrane_(sheet.thickness_mm * plane_stress(sheet)),
      bend_(sheet.thickness_mm * sheet.thickness_mm / 12.0 * membrane_), points_(pieces.points), touches_(false),
      hold_(supports.walls), held_(supports.held), rest_(supports.places) {
  turn_wall_b(supports.wedge_rad);
  hold_.resize(static_cast<std::size_t>(points_), Hold::free);
  for (int k = 0; k < points_; ++k) {
    rest_.col(k) = turned(k, rest_.col(k));
  }
  number_unknowns();
  elements_.reserve(pieces.pieces.size());
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
  for (std::size_t k = 0; k < hold_.size(); ++k) {
    if (hold_[k] != Hold::free) {
      other.rest_(1, static_cast<Eigen::Index>(k)) = other.clearance_;
    }
  }
  for (Element& element : other.elements_) {
    element.soften(change.bending);
  }
  return other;
}

void Mechanics::make_hinge(int piece, double share) {
  Element& element = elements_[static_cast<std::size_t>(piece)];
  element.soften(share);
  // It folds further than an arc can be told from a parabola.
  element.arc_curl = {};
  element.arc_bow = {};
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
  held_.assign(hold_.size(), {false, false, false});
  rest_.setZero(3, points_);
  for (std::size_t k = 0; k < hold_.size(); ++k) {
    held_[k][1] = hold_[k] != Hold::free;
    rest_(1, static_cast<Eigen::Index>(k)) = clearance_;
  }
}

/// Pins the height of a held point as near as can be to the middle of the leaf, where nothing pulls at it.
void Mechanics::pin_middle(const Grid& grid, const Pieces& pieces) {
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
  held_[static_cast<std::size_t>(pinned_)][2] = true;
}

void Mechanics::number_unknowns() {
  index_.assign(static_cast<std::size_t>(points_), {-1, -1, -1});
  for (std::size_t k = 0; k < index_.size(); ++k) {
    for (std::size_t c = 0; c < 3; ++c) {
      if (!held_[k][c]) {
        index_[k][c] = unknowns_++;
      }
    }
  }
}

void Mechanics::add_element(const Grid& grid, const Piece& piece) {
  Element element;
  element.points = piece.points;
  element.bending.setZero();
  const auto add_bending = [&](const Basis& n, double weight) {
    Eigen::Matrix<double, 3, 9> curves;
    for (int a = 0; a < 9; ++a) {
      const std::size_t k = static_cast<std::size_t>(a);
      curves.col(a) << n.dxx[k], n.dzz[k], 2 * n.dxz[k];
    }
    const Eigen::Matrix<double, 3, 9> moments = (weight * bend_) * curves;
    element.bending.noalias() += curves.transpose().lazyProduct(moments);
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
  double height = 0, height_squared = 0; // integrals of zeta and zeta^2 from the cell's foot: rows may slope
  for (const Trapezoid& t : piece.paper) {
    over(t, [&](double x, double zeta, double weight) {
      const Basis n = grid.basis(piece.i, piece.j, x, zeta);
      const double area = weight * n.stretch;
      add_bending(n, area);
      element.area += area;
      const double above = zeta - grid.up().line(piece.j);
      height += area * above;
      height_squared += area * above * above;
      for (std::size_t a = 0; a < 9; ++a) {
        element.dx[a] += area * n.dx[a];
        element.dz[a] += area * n.dz[a];
        element.bow[a] += area * n.dzz[a];
        element.curl[a] += area * n.dxx[a];
      }
    });
  }
  // One strain for each element, that of the tangents' means: it leaves a curved cell free of false stretch, and a
  // sheet under even stress is in balance wherever the outline cuts its cells.
  const double mean = height / element.area;
  const double bow_squared = tolerance::bow_share * std::max(0.0, height_squared / element.area - mean * mean);
  const double bow = std::sqrt(bow_squared);
  for (std::size_t a = 0; a < 9; ++a) {
    element.curl[a] /= element.area;
    element.dx[a] /= element.area;
    element.dz[a] /= element.area;
    element.bow[a] *= bow / element.area;
  }
  const double wide = grid.across().width(piece.i);
  const double high = grid.up().width(piece.j);
  element.arc_curl = {element.area * bend_(0, 0), wide * wide / 6};
  if (bow_squared > 0) {
    // The bow is `bow` times the second derivative.
    element.arc_bow = {element.area * bend_(1, 1) / bow_squared, (high * high / 6 - bow_squared) / bow_squared};
  }
  element.mostly_paper = piece.area >= tolerance::strain_share * wide * high;
  if (!piece.whole) {
    const double x0 = grid.across().line(piece.i);
    const double x1 = grid.across().line(piece.i + 1);
    const Trapezoid cell{grid.up().line(piece.j), grid.up().line(piece.j + 1), x0, x1, x0, x1};
    over(cell, [&](double x, double zeta, double weight) {
      const Basis n = grid.basis(piece.i, piece.j, x, zeta);
      add_bending(n, tolerance::ghost_share * weight * n.stretch);
    });
  }
  element.first_contact = static_cast<int>(contacts_.size());
  if (touches_) {
    add_contacts(grid, piece);
  }
  element.last_contact = static_cast<int>(contacts_.size());
  elements_.push_back(element);
}

void Mechanics::add_element_like(const Mechanics& before, int piece, const std::array<int, 9>& points) {
  Element element = before.elements_[static_cast<std::size_t>(piece)];
  element.points = points;
  const auto contacts = before.contacts_.begin();
  const int first = static_cast<int>(contacts_.size());
  contacts_.insert(contacts_.end(), contacts + element.first_contact, contacts + element.last_contact);
  element.first_contact = first;
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
        const double x = left + u * (right - left);
        const double area = 0.25 * (right - left) * (t.high - t.low) * grid.stretch(x, zeta);
        contacts_.push_back({grid.values(piece.i, piece.j, x, zeta), tolerance::contact_mpa_per_mm * area});
      }
      if (piece.i == 0 && t.left_low < 1e-9 && t.left_high < 1e-9) {
        const double area = 0.5 * (t.high - t.low) * tolerance::spine_contact_width_mm;
        contacts_.push_back({grid.values(0, piece.j, 0.0, zeta), tolerance::contact_mpa_per_mm * area});
      }
    }
  }
}

Eigen::Vector3d Mechanics::placed(int point, const Eigen::Vector3d& own) const {
  if (hold_[static_cast<std::size_t>(point)] != Hold::wall_b) {
    return own;
  }
  Eigen::Vector3d place = own[0] * radial_b_ + own[1] * normal_b_;
  place[2] = own[2];
  return place;
}

Eigen::Matrix3Xd Mechanics::places(const Vector& unknowns) const {
  Eigen::Matrix3Xd all(3, points_);
  for (int k = 0; k < points_; ++k) {
    const auto& index = index_[static_cast<std::size_t>(k)];
    Eigen::Vector3d own = rest_.col(k);
    for (int c = 0; c < 3; ++c) {
      if (const int i = index[static_cast<std::size_t>(c)]; i >= 0) {
        own[c] = unknowns[i];
      }
    }
    all.col(k) = placed(k, own);
  }
  return all;
}

Eigen::Matrix3Xd Mechanics::moves(const Vector& step) const {
  Eigen::Matrix3Xd all(3, points_);
  for (int k = 0; k < points_; ++k) {
    const auto& index = index_[static_cast<std::size_t>(k)];
    Eigen::Vector3d own = Eigen::Vector3d::Zero();
    for (int c = 0; c < 3; ++c) {
      if (const int i = index[static_cast<std::size_t>(c)]; i >= 0) {
        own[c] = step[i];
      }
    }
    all.col(k) = placed(k, own);
  }
  return all;
}

Vector Mechanics::unknowns_of(const Eigen::Matrix3Xd& places) const {
  Vector unknowns(unknowns_);
  for (int k = 0; k < points_; ++k) {
    const Eigen::Vector3d own = turned(k, places.col(k));
    for (int c = 0; c < 3; ++c) {
      if (const int i = index_[static_cast<std::size_t>(k)][static_cast<std::size_t>(c)]; i >= 0) {
        unknowns[i] = own[c];
      }
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
