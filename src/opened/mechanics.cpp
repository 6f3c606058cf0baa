#include "opened/mechanics.h"

#include "opened/tolerances.h"

#include <Eigen/Eigenvalues>

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

/// Nearest positive semi-definite stress (n_xx, n_zz, n_xz).
Eigen::Vector3d tensile(const Eigen::Vector3d& n) {
  const double mean = 0.5 * (n[0] + n[1]);
  const double half = 0.5 * (n[0] - n[1]);
  const double radius = std::hypot(half, n[2]);
  if (mean - radius >= 0) {
    return n;
  }
  const double high = std::max(0.0, mean + radius);
  if (radius < 1e-300) {
    return Eigen::Vector3d::Zero();
  }
  // Only the larger principal stress stays: high * v v^T, with v v^T = (I + deviator / radius) / 2.
  return {0.5 * high * (1 + half / radius), 0.5 * high * (1 - half / radius), 0.5 * high * n[2] / radius};
}

} // namespace

Mechanics::Mechanics(const Panel& panel, const Grid& grid, const Pieces& pieces)
    : wedge_(panel.opening_deg * radians_per_degree / (2.0 * panel.leaves)), clearance_(0.5 * panel.sheet.thickness_mm),
      points_(pieces.points) {
  const double t = panel.sheet.thickness_mm;
  membrane_ = t * plane_stress(panel.sheet);
  bend_ = t * t / 12.0 * membrane_;
  normal_b_ = {std::sin(wedge_), -std::cos(wedge_), 0};
  radial_b_ = {std::cos(wedge_), std::sin(wedge_), 0};
  hold_points(panel, grid, pieces);
  number_unknowns(grid, pieces);
  for (const Piece& piece : pieces.pieces) {
    add_element(grid, piece);
  }
  make_pattern();
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

Mechanics::Load Mechanics::gather(const Element& element, const Eigen::Matrix3Xd& places) const {
  Load corner;
  for (int a = 0; a < 9; ++a) {
    corner.col(a) = places.col(element.points[static_cast<std::size_t>(a)]);
  }
  return corner;
}

Mechanics::Strain Mechanics::strain(const Element& element, const Load& corner) const {
  Strain s;
  s.along_x = corner * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.dx.data());
  s.along_z = corner * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.dz.data());
  // Green's strain E = (F^T F - I) / 2; shear as 2 E_xz.
  s.green << 0.5 * (s.along_x.squaredNorm() - 1), 0.5 * (s.along_z.squaredNorm() - 1), s.along_x.dot(s.along_z);
  s.force = membrane_factor_ * membrane_ * s.green;
  return s;
}

double Mechanics::element_energy(const Element& element, const Load& corner) const {
  const Strain s = strain(element, corner);
  return 0.5 * element.area * s.force.dot(s.green) + 0.5 * (corner * element.bending).cwiseProduct(corner).sum() +
         contact_energy(element, corner, nullptr, nullptr);
}

double Mechanics::element_gradient(const Element& element, const Load& corner, Load& force) const {
  const Strain s = strain(element, corner);
  const Load bent = corner * element.bending;
  // dU/dp_a = area (n_xx N,x r,x + n_zz N,z r,z + n_xz (N,x r,z + N,z r,x)).
  const Eigen::Vector3d by_x = element.area * (s.force[0] * s.along_x + s.force[2] * s.along_z);
  const Eigen::Vector3d by_z = element.area * (s.force[1] * s.along_z + s.force[2] * s.along_x);
  force = bent;
  for (int a = 0; a < 9; ++a) {
    force.col(a) += element.dx[static_cast<std::size_t>(a)] * by_x + element.dz[static_cast<std::size_t>(a)] * by_z;
  }
  return 0.5 * element.area * s.force.dot(s.green) + 0.5 * bent.cwiseProduct(corner).sum() +
         contact_energy(element, corner, &force, nullptr);
}

void Mechanics::element_hessian(const Element& element, const Load& corner, const Eigen::Vector3d& forces,
                                Block& block) const {
  const Strain s = strain(element, corner);
  Eigen::Matrix<double, 3, 27> b;
  for (int a = 0; a < 9; ++a) {
    const double nx = element.dx[static_cast<std::size_t>(a)];
    const double nz = element.dz[static_cast<std::size_t>(a)];
    b.block<1, 3>(0, 3 * a) = nx * s.along_x.transpose();
    b.block<1, 3>(1, 3 * a) = nz * s.along_z.transpose();
    b.block<1, 3>(2, 3 * a) = (nx * s.along_z + nz * s.along_x).transpose();
  }
  block.noalias() = b.transpose() * ((element.area * membrane_factor_ * membrane_) * b);
  for (int a = 0; a < 9; ++a) {
    const double ax = element.area * element.dx[static_cast<std::size_t>(a)];
    const double az = element.area * element.dz[static_cast<std::size_t>(a)];
    for (int c = 0; c < 9; ++c) {
      const double cx = element.dx[static_cast<std::size_t>(c)];
      const double cz = element.dz[static_cast<std::size_t>(c)];
      const double spread =
          forces[0] * ax * cx + forces[1] * az * cz + forces[2] * (ax * cz + az * cx) + element.bending(a, c);
      block.block<3, 3>(3 * a, 3 * c).diagonal().array() += spread;
    }
  }
  contact_energy(element, corner, nullptr, &block);
}

double Mechanics::contact_energy(const Element& element, const Load& corner, Load* force, Block* block) const {
  double sum = 0;
  const std::array<Eigen::Vector3d, 2> walls{Eigen::Vector3d(0, 1, 0), normal_b_};
  for (int k = element.first_contact; k < element.last_contact; ++k) {
    const Contact& contact = contacts_[static_cast<std::size_t>(k)];
    const Eigen::Map<const Eigen::Matrix<double, 9, 1>> n(contact.value.data());
    const Eigen::Vector3d place = corner * n;
    for (const Eigen::Vector3d& wall : walls) {
      const double sinking = clearance_ - wall.dot(place);
      if (sinking <= 0) {
        continue;
      }
      sum += 0.5 * contact.weight * sinking * sinking;
      if (force != nullptr) {
        *force -= (contact.weight * sinking) * wall * n.transpose();
      }
      if (block != nullptr) {
        const Eigen::Matrix3d push = contact.weight * wall * wall.transpose();
        for (int a = 0; a < 9; ++a) {
          for (int c = 0; c < 9; ++c) {
            block->block<3, 3>(3 * a, 3 * c) += n[a] * n[c] * push;
          }
        }
      }
    }
  }
  return sum;
}

Eigen::Vector3d Mechanics::turned(int point, const Eigen::Vector3d& v) const {
  if (hold_[static_cast<std::size_t>(point)] != Hold::wall_b) {
    return v;
  }
  return {radial_b_.dot(v), normal_b_.dot(v), v[2]};
}

void Mechanics::add_to_gradient(const Element& element, const Load& force, Vector& gradient) const {
  for (std::size_t a = 0; a < 9; ++a) {
    const int point = element.points[a];
    const Eigen::Vector3d own = turned(point, force.col(static_cast<int>(a)));
    for (std::size_t c = 0; c < 3; ++c) {
      if (const int i = index_[static_cast<std::size_t>(point)][c]; i >= 0) {
        gradient[i] += own[static_cast<int>(c)];
      }
    }
  }
}

void Mechanics::add_to_hessian(const Element& element, Block& block, double* values) const {
  Eigen::Matrix3d turn;
  turn << radial_b_.transpose(), normal_b_.transpose(), 0, 0, 1;
  for (int a = 0; a < 9; ++a) {
    if (hold_[static_cast<std::size_t>(element.points[static_cast<std::size_t>(a)])] == Hold::wall_b) {
      block.middleRows<3>(3 * a) = (turn * block.middleRows<3>(3 * a)).eval();
      block.middleCols<3>(3 * a) = (block.middleCols<3>(3 * a) * turn.transpose()).eval();
    }
  }
  const double* from = block.data();
  for (std::size_t k = 0; k < 729; ++k) {
    if (element.slots[k] >= 0) {
      values[element.slots[k]] += from[k];
    }
  }
}

double Mechanics::energy(const Vector& unknowns) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  double sum = 0;
  for (const Element& element : elements_) {
    sum += element_energy(element, gather(element, all));
  }
  return sum;
}

double Mechanics::energy_and_gradient(const Vector& unknowns, Vector& gradient) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  gradient.setZero(unknowns_);
  double sum = 0;
  Load force;
  for (const Element& element : elements_) {
    sum += element_gradient(element, gather(element, all), force);
    add_to_gradient(element, force, gradient);
  }
  return sum;
}

double Mechanics::derivatives(const Vector& unknowns, const Forces& forces, Vector& gradient, Matrix& hessian) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  gradient.setZero(unknowns_);
  std::fill_n(hessian.valuePtr(), hessian.nonZeros(), 0.0);
  double sum = 0;
  Load force;
  Block block;
  for (std::size_t e = 0; e < elements_.size(); ++e) {
    const Element& element = elements_[e];
    const Load corner = gather(element, all);
    sum += element_gradient(element, corner, force);
    add_to_gradient(element, force, gradient);
    element_hessian(element, corner, forces.col(static_cast<int>(e)), block);
    add_to_hessian(element, block, hessian.valuePtr());
  }
  return sum;
}

Forces Mechanics::forces(const Vector& unknowns) const { return forces_after(unknowns, Vector::Zero(unknowns_)); }

Forces Mechanics::forces_after(const Vector& unknowns, const Vector& step) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  const Eigen::Matrix3Xd moved = moves(step);
  Forces forces(3, static_cast<Eigen::Index>(elements_.size()));
  for (std::size_t e = 0; e < elements_.size(); ++e) {
    const Element& element = elements_[e];
    const Strain s = strain(element, gather(element, all));
    const Load move = gather(element, moved);
    const Eigen::Vector3d by_x = move * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.dx.data());
    const Eigen::Vector3d by_z = move * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.dz.data());
    const Eigen::Vector3d change(s.along_x.dot(by_x), s.along_z.dot(by_z), s.along_x.dot(by_z) + s.along_z.dot(by_x));
    forces.col(static_cast<int>(e)) = s.force + membrane_factor_ * membrane_ * change;
  }
  return forces;
}

Forces tensile_part(const Forces& forces) {
  Forces kept = forces;
  for (Eigen::Index e = 0; e < kept.cols(); ++e) {
    kept.col(e) = tensile(forces.col(e));
  }
  return kept;
}

double Mechanics::bending_energy(const Eigen::Matrix3Xd& places) const {
  double sum = 0;
  for (const Element& element : elements_) {
    const Load corner = gather(element, places);
    sum += 0.5 * (corner * element.bending).cwiseProduct(corner).sum();
  }
  return sum;
}

double Mechanics::membrane_energy(const Eigen::Matrix3Xd& places) const {
  double sum = 0;
  for (const Element& element : elements_) {
    const Strain s = strain(element, gather(element, places));
    sum += 0.5 * element.area * s.force.dot(s.green);
  }
  return sum;
}

double Mechanics::holding_moment(const Eigen::Matrix3Xd& places) const {
  // Wall B and all that it holds turn about the axis: dU/dbeta = sum of (axis x place) . force over the points that
  // wall B holds, plus the work of its contact: d(normal_b)/dbeta = radial_b.
  double moment = 0;
  Load force;
  for (const Element& element : elements_) {
    const Load corner = gather(element, places);
    element_gradient(element, corner, force);
    for (int a = 0; a < 9; ++a) {
      if (hold_[static_cast<std::size_t>(element.points[static_cast<std::size_t>(a)])] == Hold::wall_b) {
        moment += corner(0, a) * force(1, a) - corner(1, a) * force(0, a);
      }
    }
    for (int k = element.first_contact; k < element.last_contact; ++k) {
      const Contact& contact = contacts_[static_cast<std::size_t>(k)];
      const Eigen::Vector3d place = corner * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(contact.value.data());
      const double sinking = clearance_ - normal_b_.dot(place);
      if (sinking > 0) {
        moment -= contact.weight * sinking * radial_b_.dot(place);
      }
    }
  }
  return moment;
}

double Mechanics::peak_strain(const Eigen::Matrix3Xd& places) const {
  double peak = 0;
  for (const Element& element : elements_) {
    if (!element.mostly_paper) {
      continue;
    }
    const Eigen::Vector3d e = strain(element, gather(element, places)).green;
    const double mean = 0.5 * (e[0] + e[1]);
    const double radius = std::hypot(0.5 * (e[0] - e[1]), 0.5 * e[2]);
    peak = std::max({peak, std::abs(mean + radius), std::abs(mean - radius)});
  }
  return peak;
}

} // namespace fanwright::opened
