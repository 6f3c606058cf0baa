// Opens panels one after another, each from the form before where the two are not too different.
#pragma once

#include "opened/opened.h"

#include <memory>
#include <optional>
#include <variant>

namespace fanwright::opened {

/// A solver that remembers its last form. A panel with the outline, cut-outs and rows of the one before keeps its grid
/// and its factor, or the symbolic part of it, and starts from the last form carried into the new wedge. One whose
/// outline, cut-outs or rows have moved by a few millimetres gets a grid of its own, on which the last form is the
/// start; it is cut into as many cells as the last one, as long as that suits. Every other panel is opened from the
/// start, as by open(). A form reached from another lies within 0.02 % of the size of the converged one, on all
/// examples, and so from one opened from the start when both are the same equilibrium and cut alike, but has not the
/// same bits: for results that are kept, use open(). Not for use by two threads at once; several solvers may run side
/// by side.
class Solver {
public:
  Solver();
  /// Goes on from a form of `panel` that was opened elsewhere, in any detail.
  Solver(const Panel& panel, const Form& form);
  ~Solver();
  Solver(Solver&&) noexcept;
  Solver& operator=(Solver&&) noexcept;

  /// Does the last form lead on to this panel? Otherwise it is opened from the start.
  bool leads_to(const Panel& panel) const;

  /// As opened::open. A failure or a cancelled call leaves the form before as the place to start from.
  std::variant<Form, Failure> open(const Panel& panel, const Options& options = {});

  /// The same from the last form alone; nothing where that does not lead there.
  std::optional<Form> open_beside(const Panel& panel, const Options& options = {});

private:
  struct Last;
  std::unique_ptr<Last> last_;
};

} // namespace fanwright::opened
