// Every limit of fans in one place, each with its reason. Lengths mm.
#pragma once

namespace fanwright::fan::tolerance {

/// Most that a panel may be stretched, as a share: below the elastic limit of paper, 0.4 to 0.7 % (elastic limit over
/// modulus, Materials and the Environment, data sheet paper and cardboard), so that a fan folds up again.
inline constexpr double most_stretch = 0.003;

/// How much wider than the packed paper the gathered end comes out: 1.5 to 2 (common practice, no source).
inline constexpr double looseness = 1.75;

/// Flap beyond the first side as a share of the pleat depth: 0.6 to 1 (common practice, no source).
inline constexpr double flap_share = 0.8;

/// Overlap of two joined strips as a share of the pleat depth, and the least paper left between it and a crease.
inline constexpr double lap_share = 0.6;
inline constexpr double lap_clearance_mm = 1.0;
/// Below this no overlap holds (common practice, no source).
inline constexpr double shortest_lap_mm = 3.0;

/// How near the cut line's curves follow the derived points: half of what the spread outline may miss, 0.3 mm.
inline constexpr double curve_mm = 0.15;

/// The same as a share of the fan's reach, for small fans: half of the 0.2 % of the size that the outline may miss.
inline constexpr double curve_share = 0.001;

/// Least paper between the gathered end and the outline: what a hand can hold together.
inline constexpr double least_length_mm = 8.0;

/// An outline may end this far from where it began and still go round, mm; a quarter of what a hand can place.
inline constexpr double closed_mm = 0.1;

/// Bounds on what is asked for.
inline constexpr int fewest_pleats = 2, most_pleats = 200;
inline constexpr double least_depth_mm = 3, most_depth_mm = 100;
inline constexpr double least_spread_deg = 10, most_spread_deg = 360;
inline constexpr double most_length_mm = 1000;

} // namespace fanwright::fan::tolerance
