// Opens panels one after another, each from the form before where only leaves, opening or paper have changed.
#pragma once

#include "opened/opened.h"

#include <memory>
#include <optional>
#include <variant>

namespace fanwright::opened {

/// A solver that remembers its last form. A panel with the outline, cut-outs and rows of the one before keeps its grid
/// and the symbolic part of its factor, and starts from the last form carried into the new wedge; every other panel is
/// opened from the start, as by open(). A form reached in this way lies within 0.02 % of the size of the one from the
/// start when both are the same equilibrium, but has not the same bits: for results that are kept, use open().
/// Not for use by two threads at once; several solvers may run side by side.
class Solver {
public:
  Solver();
  ~Solver();
  Solver(Solver&&) noexcept;
  Solver& operator=(Solver&&) noexcept;

  /// As opened::open. A failure or a cancelled call leaves the form before as the place to start from.
  std::variant<Form, Failure> open(const Panel& panel, const Options& options = {});

private:
  struct Last;
  static std::optional<Form> go_on(Last& last, const Panel& panel, const Options& options);
  std::unique_ptr<Last> last_;
};

} // namespace fanwright::opened
