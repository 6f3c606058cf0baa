// Closed formulas of pleated fans: a strip folded into panels of one width, its creases spread about a centre.
//
// Assumed: neighbouring ends of creases lie alternately above and below the fan's plane, at one radius and one angle
// step, and stay one panel's width apart, because the paper between them does not stretch.
// Lengths mm, angles degrees. Two panels make one pleat.
#pragma once

#include <optional>

namespace fanwright::fan {

/// Height between neighbouring ends of creases at `radius_mm`, mm; 0 where the panel lies flat or could not reach.
double relief_mm(double depth_mm, double radius_mm, double panel_deg);

/// Length of a crease between its ends on two radii, mm: H^2 = (R - r)^2 + ((dz_i - dz_o) / 2)^2.
double crease_span_mm(double depth_mm, double inner_radius_mm, double outer_radius_mm, double panel_deg);

/// Largest angle of a panel at `radius_mm`, where it lies flat: 2 asin(p / 2R); 180 where the panel is as wide as the
/// circle.
double largest_panel_deg(double depth_mm, double radius_mm);

/// Least even number of panels that closes a full disc: p >= 2 R sin(pi / N).
int least_panels_for_disc(double depth_mm, double radius_mm);

/// Least even number of panels of a fan tied in the middle of its strip, each arm `length_mm / 2` long, so that its two
/// half turns meet: N 2 asin(p / H) >= pi.
int least_panels_tied(double depth_mm, double length_mm);

/// Length of the strip over that of the rim, N p / (2 pi R): above 1 the disc closes, and what is more is relief.
double fullness_of_disc(int panels, double depth_mm, double radius_mm);

/// Relief at the rim of a full disc of many panels as a share of the pleat depth: sqrt(1 - 1 / fullness^2).
double relief_share(double fullness);

/// Radius to which the closed pleats of a fan pack round its centre, mm: N t over the spread in radians, N t / (2 pi)
/// for a disc. `looseness` is what hands reach: 1.5 to 2 (common practice, no source).
double packed_radius_mm(int panels, double caliper_mm, double spread_deg, double looseness);

/// How much shorter than in the flat a panel's diagonals come out, to first order, mm: p (p - dz_o) / (2 diagonal). Why
/// no rectangle stays flat between creases that spread.
double diagonal_shortfall_mm(double depth_mm, double length_mm, double rim_relief_mm);

/// Tilt of the creases of the disc that stays rigid: panels are sectors of `sector_deg`, all creases meet in one point:
/// cos b = cos^2 e cos(2 pi / N) - sin^2 e. Empty when the sectors cannot go round.
std::optional<double> conical_tilt_deg(int panels, double sector_deg);

} // namespace fanwright::fan
