#include "opened/factor.h"

#include <omp.h>

#include <algorithm>
#include <mutex>

namespace fanwright::opened {
namespace {

/// The factorisation's library and the algebra under it share buffers between threads: two factors at once spoil each
/// other. One is made at a time; a factor takes a small share of a solve.
std::mutex& one_at_a_time() {
  static std::mutex mutex;
  return mutex;
}

} // namespace

OneThread::OneThread() : before_(omp_get_max_active_levels()) { omp_set_max_active_levels(0); }

OneThread::~OneThread() { omp_set_max_active_levels(before_); }

DampedFactor::DampedFactor(const Matrix& pattern, double compression) : hessian_(pattern), share_(compression) {
  const std::lock_guard lock(one_at_a_time());
  factor_.cholmod().print = 0;
  factor_.analyzePattern(hessian_);
}

bool DampedFactor::prepare(const Mechanics& mechanics, const Vector& unknowns, const Forces& forces, double& energy,
                           Vector& gradient) {
  const Forces tensile = tensile_part(forces);
  damped_ = share_ < 1.0;
  energy = mechanics.derivatives(unknowns, tensile + share_ * (forces - tensile), gradient, hessian_);
  if (factorise()) {
    share_ = std::min(1.0, 1.5 * share_ + 0.25);
    return true;
  }
  damped_ = true;
  share_ *= 0.5;
  mechanics.derivatives(unknowns, tensile, gradient, hessian_);
  return factorise();
}

bool DampedFactor::factorise() {
  ++factorisations_;
  const std::lock_guard lock(one_at_a_time());
  factor_.factorize(hessian_);
  return factor_.info() == Eigen::Success;
}

} // namespace fanwright::opened
