// The flat leaf from the opened outline, as a fixed point: opened, compared, pulled back through the form found.
#pragma once

#include "fit/leaf_of.h"

#include <memory>
#include <variant>

namespace fanwright::fit {

/// The leaf of one size of a design that shows the opened ornament, and its form. Deterministic.
std::variant<OpenedLeaf, Failure> derive(const design::Design& design, const design::Size& size,
                                         const Options& options = {});

/// Derives one design after another, each from the form before: several times quicker while a maker changes a little at
/// a time. What it finds meets the same limits as derive(), but has not the same bits, and rows that place themselves
/// keep their number as long as they may. Not for use by two threads at once; several may run side by side.
class Fitter {
public:
  Fitter();
  ~Fitter();
  Fitter(Fitter&&) noexcept;
  Fitter& operator=(Fitter&&) noexcept;

  /// A failure or a cancelled call leaves the last leaf that was found as the one to start from.
  std::variant<OpenedLeaf, Failure> derive(const design::Design& design, const design::Size& asked,
                                           const Options& wished = {});

private:
  struct Last;
  std::unique_ptr<Last> last_;
};

} // namespace fanwright::fit
