// How far a made ornament may differ from its computed form: paper, creased rows, soft tilt (docs/model.md).
#pragma once

#include "opened/opened.h"

#include <variant>

namespace fanwright::opened {

/// Half-widths of what one cause does to the ornament's size, mm.
struct Contribution {
  double height_mm = 0, diameter_mm = 0;
};

struct Spread {
  double height_mm = 0, diameter_mm = 0; ///< half-widths: root of the sum of the contributions' squares
  Contribution paper;                    ///< caliper and grammage within 5 %, bending stiffness within 30 %
  Contribution crease;                   ///< rows' edges creased sharply where the paper takes a set
  Contribution tilt;                     ///< what handling leaves along soft modes
  double surface_strain = 0;             ///< largest at the rows' edges in the elastic form; 0.005 leaves a set
  int factorisations = 0, steps = 0;     ///< numerical work: factors, and steps that reuse one
};

/// Spread of the form that open() gave for `panel`. Costs about as much as that solve or less, as it goes on from the
/// solved sheet. Options: `cancelled` and `progress` are heeded. Deterministic. Fails when cancelled, or when a
/// neighbouring form cannot be found, in which case no honest figure exists.
std::variant<Spread, Failure> spread(const Panel& panel, const Form& form, const Options& options = {});

} // namespace fanwright::opened
