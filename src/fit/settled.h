// A drawing solved and pulled back through what was found, until it opens as wanted. Inside src/fit.
#pragma once

#include "fit/drawing.h"
#include "fit/leaf_of.h"
#include "fit/pull_back.h"
#include "opened/solver.h"

#include <variant>

namespace fanwright::fit {

/// How a drawing is begun: from nothing with full answers of the solver, or with quick ones first, or pulled through a
/// form like its own.
enum class Begun { full, quick, near };

/// The best of several solves, and the drawing it is of.
struct Settled {
  leaf::Leaf leaf;
  opened::Form form;
  Drawing drawing;
  Miss miss;          ///< of that drawing in that form
  double overlap = 1; ///< of opened and wanted silhouette, intersection over union
  Solves solves;      ///< of all the way there
};

/// Rows that place themselves have been listed in `size`. `solver`: goes on from its last form where that is near.
std::variant<Settled, Failure> settled(const design::Design& design, const design::Size& size, Drawing drawing,
                                       Begun start, opened::Solver& solver, const Options& options);

} // namespace fanwright::fit
