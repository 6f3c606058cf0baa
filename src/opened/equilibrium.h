// A solved half-panel with all that was needed to solve it: what a form's places are asked from, and where a solve with
// other paper goes on from.
#pragma once

#include "opened/factor.h"
#include "opened/grid.h"
#include "opened/mechanics.h"
#include "opened/pieces.h"
#include "opened/relax.h"
#include "opened/surface.h"

#include <memory>
#include <variant>

namespace fanwright::opened {

struct Equilibrium {
  Fineness fineness;
  Grid grid;
  Pieces pieces;
  Mechanics mechanics;
  Vector unknowns;

  Surface surface() const { return {grid, pieces, mechanics.places(unknowns)}; }
};

/// A panel's sheet before it is brought to rest.
struct Laid {
  Fineness fineness;
  Grid grid;
  Pieces pieces;
  Mechanics mechanics;
  std::vector<int> alike; ///< of each piece the one of the sheet before that it equals, or -1; empty without one
};

/// A form with the factor that its last steps were taken with.
struct Opened {
  Form form;
  std::unique_ptr<DampedFactor> factor;
};

/// As open(), the factor kept for the forms beside this one. With a finer form of the same panel that one, carried
/// over, is the guess to start from, so that both are the same equilibrium.
std::variant<Opened, Failure> open_from_start(const Panel& panel, const Options& options,
                                              const Equilibrium* finer = nullptr);

/// Cuts the panel by a grid of its own; fails on rows or outlines that no grid suits. What a sheet before has too is
/// taken over from it.
std::variant<Laid, Failure> lay(const Panel& panel, const Options& options, const Equilibrium* before = nullptr);

/// How finely a panel's grid is cut: cells that bring the edge to 0.3 % of the size or better on the verification cases
/// (docs/model.md), unless the options say otherwise.
Fineness fineness_of(const Panel& panel, const Options& options);

/// When the last steps may stop.
Rest rest_of(const Options& options, Start start);

/// All that is reported of a solved sheet, less the count of steps.
Form form_of(const Panel& panel, const Options& options, std::shared_ptr<const Equilibrium> equilibrium);

} // namespace fanwright::opened
