// Leaf and opened form of a design that is being changed: an estimate at once, carried over from the last form, then
// the settled one, which goes on from it. Plain values in and out; for results that are kept use leaf_of() and
// opened::open(), which always start afresh.
#pragma once

#include "fit/leaf_of.h"
#include "opened/opened.h"
#include "opened/preview.h"
#include "opened/solver.h"

#include <variant>
#include <vector>

namespace fanwright::fit {

/// A leaf and its opened form. Does not change once made; may be read by many threads.
struct Followed {
  design::Size size; ///< it belongs to
  leaf::Leaf leaf;
  opened::Panel panel;
  opened::Form form;
  bool coarse = false; ///< a quick answer of the solver, to begin with
};

/// What a change will come to, without a solve or with a coarse one.
struct Estimate {
  leaf::Leaf leaf;
  opened::Panel panel;
  /// Carried: wedge, edge, height, diameter, foot lift, place() and hub radius only. Previewed: all but the mesh.
  opened::Form form;
  bool previewed = false;
};

/// A coarse form to begin with, from nothing. Some tens of milliseconds.
std::variant<Followed, Failure> begin(const design::Design& design, const design::Size& size,
                                      const Options& options = {});

/// The changed design's leaf, pushed through the deformation of `last`. For a design drawn opened the leaf is the
/// wanted outline pulled back through it, good to about a tenth of the change. Its form is `preview`'s where that leads
/// there (some ten milliseconds more), otherwise carried over too, in a few milliseconds.
std::variant<Estimate, Failure> estimate(const design::Design& design, const design::Size& size, const Followed& last,
                                         const opened::Preview* preview = nullptr);

/// The changed design's leaf and form, within tolerance::outline_share of what leaf_of() and open() find. `solver` is
/// the one that made `last`.
std::variant<Followed, Failure> settle(const design::Design& design, const design::Size& size, const Followed& last,
                                       opened::Solver& solver, const Options& options = {});

/// The wanted outline of a design drawn opened, from the axis to the axis: (distance from the axis, height), mm.
/// Empty for a design drawn flat or a silhouette that is refused.
std::vector<leaf::Point> wanted_outline(const design::Design& design, const design::Size& size);

} // namespace fanwright::fit
