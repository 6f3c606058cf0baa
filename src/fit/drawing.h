// A wanted outline and the flat leaf that is to open into it, as points that follow the deformation. Inside src/fit.
#pragma once

#include "fit/leaf_of.h"
#include "fit/runs.h"
#include "opened/opened.h"

#include <optional>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// How rows that place themselves were chosen.
struct RowChoice {
  std::size_t count = 0;
  double share = 1;   ///< of the look's lock ratio
  double covered = 1; ///< of the silhouette, as foreseen
};

/// Everything that follows the deformation: outline, cut-outs, ends of listed rows.
struct Drawing {
  std::vector<Run> outline;
  std::vector<std::vector<Run>> cut_outs;
  Run row_ends;                       ///< from and to of each listed row, in turn
  std::optional<double> spine_gap_mm; ///< where rows that placed themselves begin, however far the spine bows
  std::optional<RowChoice> placed;    ///< of rows that placed themselves
  double curve_mm = 0;                ///< curves of the leaf pass its points within this
  double size_mm = 0;
  double breadth_mm = 0; ///< area of the half silhouette over the length of its outline
};

/// The drawing to begin with: flat places are the wanted ones less the hub. Rows that place themselves are listed in
/// `size` from here on. Those that follow a choice `before` keep its number, a little nearer or further apart than
/// their look has them, as long as the same limits hold and the silhouette is covered as well.
std::variant<Drawing, Failure> begun(const design::Design& design, design::Size& size,
                                     const std::optional<RowChoice>& before = {});

/// `share` of the way from one state of a drawing's flat points to a later one.
Drawing between(const Drawing& before, const Drawing& after, double share);

/// A drawing before and after it was pulled back through a form.
struct Pull {
  Drawing from, to;
};

/// The share of the way from one pull's end to the next one's at which their moves, mixed alike, are shortest.
/// Dimensionless: 1 takes the later one as it is, 0.5 the mean of two that take turns.
double mixed_share(const Pull& before, const Pull& pull);

/// The flat design of the drawing's present state, for one size: straight lines, or few smooth curves.
design::Design flat_design(const design::Design& design, const design::Size& size, const Drawing& drawing, bool curves);

/// The leaf of that flat design. What refuses it is told as of the outline that was wanted.
std::variant<leaf::Leaf, Failure> leaf_from(const design::Design& design, const design::Size& size,
                                            const Drawing& drawing, bool curves = false);

/// A leaf that is refused for its count of leaves is sound on paper; every other refusal is a mistake in the file.
Failure failure_of(const design::Refusal& refusal);

} // namespace fanwright::fit
