// The flat leaf of one size and its opened form, whichever outline the design shows.
#pragma once

#include "leaf/leaf.h"
#include "opened/opened.h"

#include <functional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// Why there is no leaf. `fails_check`: the file is sound, but its ornament cannot be made as drawn.
struct Failure {
  std::string where; ///< JSON pointer
  std::string sentence;
  bool fails_check = false;
};

/// What it took to find a leaf: solves of the opened form, and the processor time of the program while they ran, s.
struct Solves {
  int quick = 0, full = 0;
  double quick_seconds = 0, full_seconds = 0;
};

/// A leaf with the form that was found on the way to it.
struct OpenedLeaf {
  leaf::Leaf leaf;
  opened::Form form;
  double overlap = 1;               ///< intersection over union of opened and wanted silhouette; 1 when drawn flat
  std::vector<std::string> remarks; ///< sentences for the maker: what comes near to the wanted outline, not up to it
  Solves solves{};                  ///< none when drawn flat
};

struct Options {
  std::function<void(double)> progress; ///< called with 0..1, may be empty
  std::function<bool()> cancelled;      ///< polled between iterations, may be empty
  int most_steps = 0;                   ///< of the solver, after which a leaf counts as not found; 0: all it takes
  bool remedies = false;                ///< check() looks for remedies of a size that has no leaf, which takes seconds
  std::function<void(const opened::Form&)> formed{}; ///< check() hands over the form it found; may be empty
};

/// What to say of rows that lock: the ratio (above tolerance::most_lock) and the least leaf count that opens.
std::string lock_sentence(double lock_ratio, int leaves);

/// For a flat design the leaf as drawn; for an opened one the leaf whose opened form has the drawn outline, to
/// `tolerance::outline_share` of its size where paper can reach. Deterministic.
std::variant<leaf::Leaf, Failure> leaf_of(const design::Design& design, const design::Size& size,
                                          const Options& options = {});

/// The leaf with its opened form, mesh included. Rows that lock are refused where the leaf is derived only.
std::variant<OpenedLeaf, Failure> opened_leaf(const design::Design& design, const design::Size& size,
                                              const Options& options = {});

} // namespace fanwright::fit
