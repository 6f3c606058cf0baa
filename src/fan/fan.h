// Pleated fans: wings, tails, collars. From the outline a fan is to have once spread to the flat strip that is cut and
// scored. Plain values in and out; deterministic. Lengths mm, angles degrees; frames and axes: spread.h.
#pragma once

#include "design/design.h"
#include "fan/spread.h"
#include "fan/strip.h"
#include "leaf/path_data.h"
#include "paper/paper.h"

#include <optional>
#include <variant>

namespace fanwright::fan {

/// An outer edge drawn as it looks when the fan is spread, seen along Z, about the centre at (0, 0). Drawn either way
/// round; its end on the left of the fan's middle is the first side. Its ends say how far the fan is spread; where they
/// meet, it goes round.
struct DrawnEdge {
  leaf::Subpath path; ///< fan frame: x is X, z is Y
};

/// A strip cut straight: the spread edge is as round as pleats make it.
struct StraightEdge {
  double length_mm = 60;   ///< along the pleats, from the gathered end to the cut
  double spread_deg = 360; ///< 360: a full disc
};

struct Fan {
  double depth_mm = 10; ///< of the pleats: a panel's width
  int pleats = 12;      ///< two panels each
  std::variant<StraightEdge, DrawnEdge> edge;
  std::optional<double> inner_radius_mm; ///< empty: what the packed paper takes
  std::optional<double> flap_mm;         ///< beyond the first side; empty: a share of the depth; 0: none
  std::optional<double> lap_mm;          ///< overlap of joined strips; empty: a share of the depth
  paper::Paper paper;
};

/// A fan that can be made.
struct Made {
  Spread spread; ///< as far as it is to be spread
  Strip strip;   ///< flat and whole
};

/// Works out pleats, spread and strip. Refusals name the key at fault below the fan: "/pleats", "/depth", "/outline",
/// "/length", "/spread", "/inner_radius", "/flap" or "/lap"; where other pleats help, they say how many.
std::variant<Made, design::Refusal> make(const Fan& fan);

/// Does the fan go all the way round?
bool is_disc(const Spread& spread);

/// Radius of the discs that cover the middle of a fan that goes round, whole mm: 5 mm beyond the gathered end.
double cover_radius_mm(const Spread& spread);

} // namespace fanwright::fan
