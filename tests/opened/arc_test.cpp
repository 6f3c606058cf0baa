#include "opened/arc.h"

#include <gtest/gtest.h>

namespace fanwright::opened {
namespace {

constexpr double stiffness = 7.0;
constexpr double length = 2.0;

double parabola(const Eigen::Vector3d& k) { return 0.5 * stiffness * k.squaredNorm(); }

TEST(opened, an_arc_stores_the_square_of_its_turn) {
  // Ends turned by phi against each other over a mean tangent of length 1: k = 2 tan(phi / 2) / h, and the exact energy
  // is D phi^2 / (2 h^2) (pure bending, textbook result). Left out is phi^4 / 240 of it.
  const Arc arc(stiffness, length * length / 6);
  for (const double phi : {0.05, 0.2, 0.5, 1.0}) {
    const Eigen::Vector3d k(0, 2 * std::tan(phi / 2) / length, 0);
    const double exact = 0.5 * stiffness * phi * phi / (length * length);
    EXPECT_NEAR((parabola(k) + arc.energy(k)) / exact, 1, std::pow(phi, 4) / 200);
    EXPECT_NEAR(parabola(k) / exact, 1 + phi * phi / 6, std::pow(phi, 4) / 35);
  }
}

TEST(opened, an_arc_has_the_slope_and_the_curve_of_its_energy) {
  const Arc arc(stiffness, 0.4);
  const Eigen::Vector3d k(0.3, -0.7, 1.1);
  const Eigen::Vector3d curve = arc.curve(k);
  const Eigen::Matrix3d hessian = -arc.slope(k) * Eigen::Matrix3d::Identity() - curve * curve.transpose();
  constexpr double h = 1e-5;
  for (int c = 0; c < 3; ++c) {
    const Eigen::Vector3d step = h * Eigen::Vector3d::Unit(c);
    EXPECT_NEAR((arc.energy(k + step) - arc.energy(k - step)) / (2 * h), -arc.slope(k) * k[c], 1e-8);
    const Eigen::Vector3d turned = (-arc.slope(k + step) * (k + step) + arc.slope(k - step) * (k - step)) / (2 * h);
    EXPECT_LT((turned - hessian.col(c)).norm(), 1e-8);
  }
}

TEST(opened, nothing_bends_less_than_not_at_all) {
  const Arc arc(stiffness, 0.4);
  double before = 0;
  for (double k = 0.1; k < 1e3; k *= 1.5) {
    const double bent = parabola({k, 0, 0}) + arc.energy({k, 0, 0});
    EXPECT_GT(bent, before) << k;
    before = bent;
  }
  EXPECT_EQ(Arc().energy({1, 2, 3}), 0);
}

} // namespace
} // namespace fanwright::opened
