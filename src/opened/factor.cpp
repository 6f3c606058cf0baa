#include "opened/factor.h"

#include <omp.h>

#include <algorithm>
#include <mutex>

namespace fanwright::opened {
namespace {

/// The factorisation's library and the algebra under it share buffers between threads: two factors at once spoil each
/// other. One is made or used at a time, which takes half of a solve.
std::mutex& one_at_a_time() {
  static std::mutex mutex;
  return mutex;
}

/// Do all columns reach down over few rows only? The order in which a leaf's points are numbered, across and then up,
/// then fills the factor no more than one that is looked for, which takes three times as long.
bool is_banded(const Matrix& pattern) {
  Eigen::Index reach = 0;
  for (Eigen::Index column = 0; column < pattern.cols(); ++column) {
    const int end = pattern.outerIndexPtr()[column + 1];
    if (end > pattern.outerIndexPtr()[column]) {
      reach = std::max(reach, pattern.innerIndexPtr()[end - 1] - column);
    }
  }
  return 8 * reach < pattern.cols();
}

} // namespace

OneThread::OneThread() : before_(omp_get_max_active_levels()) { omp_set_max_active_levels(0); }

OneThread::~OneThread() { omp_set_max_active_levels(before_); }

DampedFactor::DampedFactor(const Matrix& pattern, double compression) : hessian_(pattern), share_(compression) {
  const std::lock_guard lock(one_at_a_time());
  cholmod_common& common = factor_.cholmod();
  common.print = 0;
  if (is_banded(hessian_)) {
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_NATURAL;
    common.postorder = 0;
  }
  // Supernodes joined more readily than by default: the sheet's are narrow, and each call of the dense algebra costs.
  common.nrelax[0] = 16;
  common.nrelax[1] = 64;
  common.nrelax[2] = 192;
  common.zrelax[0] = 0.9;
  common.zrelax[1] = 0.2;
  common.zrelax[2] = 0.1;
  factor_.analyzePattern(hessian_);
}

bool DampedFactor::prepare(const Mechanics& mechanics, const Vector& unknowns, const Forces& forces, Ground& ground) {
  const Forces tensile = tensile_part(forces);
  damped_ = share_ < 1.0;
  ground.energy = mechanics.derivatives(unknowns, tensile + share_ * (forces - tensile),
                                        damped_ ? Bends::as_parabolas : Bends::as_arcs, ground.gradient, hessian_);
  if (factorise()) {
    share_ = std::min(1.0, 1.5 * share_ + 0.25);
    return true;
  }
  damped_ = true;
  share_ *= 0.5;
  mechanics.derivatives(unknowns, tensile, Bends::as_parabolas, ground.gradient, hessian_);
  return factorise();
}

Vector DampedFactor::solve(const Vector& load) const {
  const std::lock_guard lock(one_at_a_time());
  return factor_.solve(load);
}

bool DampedFactor::factorise() {
  ++factorisations_;
  const std::lock_guard lock(one_at_a_time());
  factor_.factorize(hessian_);
  return factor_.info() == Eigen::Success;
}

} // namespace fanwright::opened
