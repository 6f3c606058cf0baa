// The flat leaf of one size, whichever outline the design shows.
#pragma once

#include "leaf/leaf.h"

#include <functional>
#include <string>
#include <variant>

namespace fanwright::fit {

/// Why there is no leaf. `fails_check`: the file is sound, but its ornament cannot be made as drawn.
struct Failure {
  std::string where; ///< JSON pointer
  std::string sentence;
  bool fails_check = false;
};

struct Options {
  std::function<void(double)> progress; ///< called with 0..1, may be empty
  std::function<bool()> cancelled;      ///< polled between iterations, may be empty
};

/// What to say of rows that lock: the ratio (above tolerance::most_lock) and the least leaf count that opens.
std::string lock_sentence(double lock_ratio, int leaves);

/// For a flat design the leaf as drawn; for an opened one the leaf whose opened form has the drawn outline, to
/// `tolerance::outline_share` of its size. Deterministic.
std::variant<leaf::Leaf, Failure> leaf_of(const design::Design& design, const design::Size& size,
                                          const Options& options = {});

} // namespace fanwright::fit
