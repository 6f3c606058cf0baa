// What a wanted outline will come to, told from its rows before anything is solved. Inside src/fit.
#pragma once

#include "fit/pull_back.h"
#include "leaf/leaf.h"

#include <variant>

namespace fanwright::fit {

/// Estimated. The lock ratio is that of the rows on the drawn outline.
struct Foreseen {
  Hub hub;               ///< as bowed_hub() has it
  double lock_ratio = 0; ///< largest of all gaps
  double overlap = 1;    ///< of opened and wanted silhouette, intersection over union: what the hub takes
};

/// Of a design drawn opened. A failure where there is no leaf to begin with. A few milliseconds.
std::variant<Foreseen, Failure> foreseen(const design::Design& design, const design::Size& asked);

/// The same for rows that lie on the wanted outline: their ends are distances from the spine.
Foreseen foreseen(const Drawing& drawing, const leaf::Leaf& drawn, const design::Size& size);

/// The ends of the spine, bowed away from the axis by rows on either wall: gaps stand lower at their outer end, by
/// 0.6 q^2 of them (docs/model.md), and so each turns the spine by 0.6 q^2 s / x. Where it rests was fitted to the
/// shapes of bench/fit: radii come out within a quarter of the solved ones in two of three.
Hub bowed_hub(const leaf::Leaf& leaf, const design::Size& size);

} // namespace fanwright::fit
