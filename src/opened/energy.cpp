// Energy of the sheet and of its contact with the walls, and their derivatives.
#include "opened/mechanics.h"

#include <algorithm>
#include <cmath>

namespace fanwright::opened {
namespace {

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
  s.curled = corner * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.curl.data());
  s.bowed = corner * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.bow.data());
  // Green's strain E = (F^T F - I) / 2 of the tangents' means over the element; shear as 2 E_xz.
  s.green << 0.5 * (s.along_x.squaredNorm() - 1), 0.5 * (s.along_z.squaredNorm() + s.bowed.squaredNorm() - 1),
      s.along_x.dot(s.along_z);
  s.force = membrane_ * s.green;
  return s;
}

double Mechanics::element_energy(const Element& element, const Load& corner) const {
  const Strain s = strain(element, corner);
  return 0.5 * element.area * s.force.dot(s.green) +
         0.5 * corner.lazyProduct(element.bending).cwiseProduct(corner).sum() + arc_energy(element, s) +
         contact_energy(element, corner, nullptr);
}

double Mechanics::element_gradient(const Element& element, const Load& corner, Load& force) const {
  const Strain s = strain(element, corner);
  const Load bent = corner.lazyProduct(element.bending); // too small for a blocked product
  // dU/dp_a = area (n_xx N,x r,x + n_zz N,z r,z + n_xz (N,x r,z + N,z r,x)).
  const Eigen::Vector3d by_x = element.area * (s.force[0] * s.along_x + s.force[2] * s.along_z);
  const Eigen::Vector3d by_z = element.area * (s.force[1] * s.along_z + s.force[2] * s.along_x);
  const Eigen::Vector3d by_bow = (element.area * s.force[1] - element.arc_bow.slope(s.bowed)) * s.bowed;
  const Eigen::Vector3d by_curl = -element.arc_curl.slope(s.curled) * s.curled;
  force = bent;
  for (int a = 0; a < 9; ++a) {
    const std::size_t k = static_cast<std::size_t>(a);
    force.col(a) += element.dx[k] * by_x + element.dz[k] * by_z + element.bow[k] * by_bow + element.curl[k] * by_curl;
  }
  return 0.5 * element.area * s.force.dot(s.green) + 0.5 * bent.cwiseProduct(corner).sum() + arc_energy(element, s) +
         contact_energy(element, corner, &force);
}

/// A cell lies within the hull of its control points.
bool Mechanics::may_touch(const Element& element, const Load& corner) const {
  return element.first_contact < element.last_contact &&
         (corner.row(1).minCoeff() < clearance_ ||
          (normal_b_[0] * corner.row(0) + normal_b_[1] * corner.row(1)).minCoeff() < clearance_);
}

double Mechanics::contact_energy(const Element& element, const Load& corner, Load* force) const {
  double sum = 0;
  if (!may_touch(element, corner)) {
    return sum;
  }
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

/// Adds the entries of two control points' block that lie in the lower triangle, if their points are held in order.
void Mechanics::add_block(const Element& element, std::size_t a, std::size_t b, const Eigen::Matrix3d& block,
                          double* values) const {
  const auto& rows = index_[static_cast<std::size_t>(element.points[a])];
  const auto& columns = index_[static_cast<std::size_t>(element.points[b])];
  const int last = *std::max_element(columns.begin(), columns.end());
  const int* outer = pattern_.outerIndexPtr();
  for (std::size_t d = 0; d < 3; ++d) {
    if (columns[d] < 0) {
      continue;
    }
    double* at = values + outer[columns[d]];
    if (a != b) {
      at += last - columns[d] + 1 + element.skipped[a + 9 * b];
    }
    for (std::size_t c = a == b ? d : 0; c < 3; ++c) {
      if (rows[c] >= 0) {
        *at++ += block(static_cast<int>(c), static_cast<int>(d));
      }
    }
  }
}

void Mechanics::add_to_hessian(const Element& element, const Load& corner, const Eigen::Vector3d& forces, Bends bends,
                               double* values) const {
  const Strain s = strain(element, corner);
  const Eigen::Matrix3d stiffness = element.area * membrane_;
  Eigen::Matrix3d turn;
  turn << radial_b_.transpose(), normal_b_.transpose(), 0, 0, 1;
  const Arc bow = bends == Bends::as_arcs ? element.arc_bow : Arc();
  const Arc curl = bends == Bends::as_arcs ? element.arc_curl : Arc();
  const double by_bow = element.area * forces[1] - bow.slope(s.bowed);
  const double by_curl = curl.slope(s.curled);
  const Eigen::Vector3d curve_bow = bow.curve(s.bowed);
  const Eigen::Vector3d curve_curl = curl.curve(s.curled);
  // Of a move of each point, in its own frame: three strains, then how two arcs give way along their curves.
  std::array<Eigen::Matrix<double, 3, 5>, 9> strains, stresses;
  std::array<bool, 9> on_b{};
  for (std::size_t a = 0; a < 9; ++a) {
    Eigen::Matrix<double, 3, 5> b;
    b.col(0) = element.dx[a] * s.along_x;
    b.col(1) = element.dz[a] * s.along_z + element.bow[a] * s.bowed;
    b.col(2) = element.dx[a] * s.along_z + element.dz[a] * s.along_x;
    b.col(3) = element.bow[a] * curve_bow;
    b.col(4) = element.curl[a] * curve_curl;
    on_b[a] = hold_[static_cast<std::size_t>(element.points[a])] == Hold::wall_b;
    strains[a] = on_b[a] ? (turn * b).eval() : b;
    stresses[a] << strains[a].leftCols<3>() * stiffness, -strains[a].rightCols<2>();
  }
  for (std::size_t b = 0; b < 9; ++b) {
    for (std::size_t a = 0; a < 9; ++a) {
      if (element.points[a] < element.points[b]) {
        continue;
      }
      const double spread =
          element.area * (forces[0] * element.dx[a] * element.dx[b] + forces[1] * element.dz[a] * element.dz[b] +
                          forces[2] * (element.dx[a] * element.dz[b] + element.dz[a] * element.dx[b])) +
          by_bow * element.bow[a] * element.bow[b] - by_curl * element.curl[a] * element.curl[b] +
          element.bending(static_cast<int>(a), static_cast<int>(b));
      Eigen::Matrix3d block;
      block.noalias() = strains[a] * stresses[b].transpose();
      if (on_b[a] == on_b[b]) {
        block.diagonal().array() += spread;
      } else {
        block += spread * (on_b[a] ? turn : turn.transpose());
      }
      add_block(element, a, b, block, values);
    }
  }
  add_contact_to_hessian(element, corner, values);
}

void Mechanics::add_contact_to_hessian(const Element& element, const Load& corner, double* values) const {
  if (!may_touch(element, corner)) {
    return;
  }
  const std::array<Eigen::Vector3d, 2> walls{Eigen::Vector3d(0, 1, 0), normal_b_};
  for (int k = element.first_contact; k < element.last_contact; ++k) {
    const Contact& contact = contacts_[static_cast<std::size_t>(k)];
    const Eigen::Vector3d place = corner * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(contact.value.data());
    for (const Eigen::Vector3d& wall : walls) {
      if (clearance_ - wall.dot(place) <= 0) {
        continue;
      }
      Load sinking; // of a move of each point, in its own frame
      for (int a = 0; a < 9; ++a) {
        const std::size_t s = static_cast<std::size_t>(a);
        sinking.col(a) = contact.value[s] * turned(element.points[s], wall);
      }
      for (std::size_t b = 0; b < 9; ++b) {
        for (std::size_t a = 0; a < 9; ++a) {
          if (element.points[a] >= element.points[b]) {
            const Eigen::Matrix3d push =
                contact.weight * sinking.col(static_cast<int>(a)) * sinking.col(static_cast<int>(b)).transpose();
            add_block(element, a, b, push, values);
          }
        }
      }
    }
  }
}

/// Work of the dead loads; takes them off the gradient.
double Mechanics::load_work(const Eigen::Matrix3Xd& places, Vector* gradient) const {
  if (load_.cols() == 0) {
    return 0;
  }
  if (gradient != nullptr) {
    *gradient -= unknowns_of(load_);
  }
  return load_.cwiseProduct(places).sum();
}

double Mechanics::energy(const Vector& unknowns) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  double sum = -load_work(all, nullptr);
  for (const Element& element : elements_) {
    sum += element_energy(element, gather(element, all));
  }
  return sum;
}

double Mechanics::energy_and_gradient(const Vector& unknowns, Vector& gradient) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  gradient.setZero(unknowns_);
  double sum = -load_work(all, &gradient);
  Load force;
  for (const Element& element : elements_) {
    sum += element_gradient(element, gather(element, all), force);
    add_to_gradient(element, force, gradient);
  }
  return sum;
}

double Mechanics::derivatives(const Vector& unknowns, const Forces& forces, Bends bends, Vector& gradient,
                              Matrix& hessian) const {
  const Eigen::Matrix3Xd all = places(unknowns);
  gradient.setZero(unknowns_);
  std::fill_n(hessian.valuePtr(), hessian.nonZeros(), 0.0);
  double sum = -load_work(all, &gradient);
  Load force;
  for (std::size_t e = 0; e < elements_.size(); ++e) {
    const Element& element = elements_[e];
    const Load corner = gather(element, all);
    sum += element_gradient(element, corner, force);
    add_to_gradient(element, force, gradient);
    add_to_hessian(element, corner, forces.col(static_cast<int>(e)), bends, hessian.valuePtr());
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
    const Eigen::Vector3d by_bow = move * Eigen::Map<const Eigen::Matrix<double, 9, 1>>(element.bow.data());
    const Eigen::Vector3d change(s.along_x.dot(by_x), s.along_z.dot(by_z) + s.bowed.dot(by_bow),
                                 s.along_x.dot(by_z) + s.along_z.dot(by_x));
    forces.col(static_cast<int>(e)) = s.force + membrane_ * change;
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
    sum += 0.5 * corner.lazyProduct(element.bending).cwiseProduct(corner).sum() +
           arc_energy(element, strain(element, corner));
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

double Mechanics::holding_moment(const Eigen::Matrix3Xd& places, Eigen::Matrix3Xd moves) const {
  // Walls keep what they hold: d(normal_b)/dbeta = radial_b.
  for (int k = 0; k < points_; ++k) {
    if (hold_[static_cast<std::size_t>(k)] == Hold::wall_a) {
      moves(1, k) = 0;
    } else if (hold_[static_cast<std::size_t>(k)] == Hold::wall_b) {
      moves.col(k) -= (radial_b_.dot(places.col(k)) + normal_b_.dot(moves.col(k))) * normal_b_;
    }
  }
  double moment = 0;
  Load force;
  for (const Element& element : elements_) {
    const Load corner = gather(element, places);
    element_gradient(element, corner, force);
    moment += force.cwiseProduct(gather(element, moves)).sum();
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

double Mechanics::largest_strain(const Element& element, const Eigen::Matrix3Xd& places) const {
  const Eigen::Vector3d e = strain(element, gather(element, places)).green;
  const double mean = 0.5 * (e[0] + e[1]);
  const double radius = std::hypot(0.5 * (e[0] - e[1]), 0.5 * e[2]);
  return std::max(std::abs(mean + radius), std::abs(mean - radius));
}

double Mechanics::peak_strain(const Eigen::Matrix3Xd& places) const {
  return largest_strain(elements_[static_cast<std::size_t>(most_stretched(places))], places);
}

int Mechanics::most_stretched(const Eigen::Matrix3Xd& places) const {
  int most = 0;
  double peak = 0;
  for (std::size_t e = 0; e < elements_.size(); ++e) {
    if (elements_[e].mostly_paper && largest_strain(elements_[e], places) > peak) {
      peak = largest_strain(elements_[e], places);
      most = static_cast<int>(e);
    }
  }
  return most;
}

} // namespace fanwright::opened
