// Bending of a cell along one direction as that of an arc.
//
// A cell of a spline of second degree is a parabola. Rolled up without stretch until its ends are turned by phi against
// each other, its second derivative is 2 tan(phi / 2) / h instead of phi / h: phi^2 / 6 too much energy. Where some of
// a cell's bow counts as length (tolerance::bow_share), the mean tangent is shorter and takes part of that back. With k
// the second derivative, h the cell's length, D the stiffness and b^2 the share of k^2 that counts as length, an arc's
// energy per area is to the fourth power of phi
//
//   1/2 D k^2 / (1 + u),   u = (h^2 / 6 - b^2) k^2,
//
// which is 1/2 D k^2 less the difference that is computed here.
#pragma once

#include <Eigen/Core>

#include <cmath>

namespace fanwright::opened {

/// What an arc's energy is less than a parabola's, as a function of the second derivative k, 1/mm.
class Arc {
public:
  Arc() = default;
  /// `stiffness` N mm, of the whole cell N mm3; `scale` is u / k^2, mm2, above 0.
  Arc(double stiffness, double scale) : weight_(0.5 * stiffness / scale), scale_(scale) {}

  void soften(double factor) { weight_ *= factor; }

  /// N mm, not above 0.
  double energy(const Eigen::Vector3d& k) const {
    const double u = scale_ * k.squaredNorm();
    return -weight_ * u * u / (1 + u);
  }

  /// Its derivative by k is minus this times k.
  double slope(const Eigen::Vector3d& k) const {
    const double rest = 1 / (1 + scale_ * k.squaredNorm());
    return 2 * weight_ * scale_ * (1 - rest * rest);
  }

  /// Its second derivative by k is minus slope() times the unit matrix, minus v v^T with this v.
  Eigen::Vector3d curve(const Eigen::Vector3d& k) const {
    const double rest = 1 / (1 + scale_ * k.squaredNorm());
    return std::sqrt(8 * weight_ * rest) * scale_ * rest * k;
  }

private:
  double weight_ = 0; ///< N mm
  double scale_ = 0;  ///< mm2
};

} // namespace fanwright::opened
