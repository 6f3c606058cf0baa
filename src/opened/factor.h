// The Hessian's sparse Cholesky factor, with its symbolic part done once.
#pragma once

#include "opened/mechanics.h"

#include <Eigen/CholmodSupport>

namespace fanwright::opened {

/// Keeps the sparse factorisation on the calling thread while it lives. Its fronts are far too small for a team of
/// threads: with one the solve takes two to three times as long, and all cores spin meanwhile.
class OneThread {
public:
  OneThread();
  ~OneThread();
  OneThread(const OneThread&) = delete;
  OneThread& operator=(const OneThread&) = delete;

private:
  int before_;
};

/// The energy at some place, N mm, and its gradient there.
struct Ground {
  double energy = 0;
  Vector gradient;
};

/// The Hessian's factor, with as much of the compressive membrane force as keeps it positive definite.
class DampedFactor {
public:
  /// `compression`: the share of the compressive force that the first factor tries; 0 for a first guess, 1 beside an
  /// equilibrium.
  DampedFactor(const Matrix& pattern, double compression);

  /// Makes the factor of `mechanics`, which has its pattern, at `unknowns`, with `forces` in the Hessian; false when
  /// even the tensile Hessian cannot be factored. `ground` is what the energy is there.
  bool prepare(const Mechanics& mechanics, const Vector& unknowns, const Forces& forces, Ground& ground);

  Vector solve(const Vector& load) const;
  /// Did the last factor leave some compressive force out?
  bool damped() const { return damped_; }
  int factorisations() const { return factorisations_; }

private:
  bool factorise();

  Matrix hessian_;
  Eigen::CholmodSupernodalLLT<Matrix, Eigen::Lower> factor_;
  bool damped_ = false;
  double share_; ///< of the compressive force that enters
  int factorisations_ = 0;
};

} // namespace fanwright::opened
