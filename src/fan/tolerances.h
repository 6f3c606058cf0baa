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

/// The outline has a neck where it widens again by this, mm and as a share of its widest radius: less reads as a waist.
inline constexpr double least_neck_mm = 2, least_neck_share = 0.05;
/// The neck reaches up and down as far as it is hardly wider, mm or share of its radius.
inline constexpr double neck_mm = 1, neck_share = 0.1;

/// How near distances between fans and bodies are told; never too large.
inline constexpr double clearance_mm = 0.02;
/// And told apart, when it is to be said what a fan meets first.
inline constexpr double named_mm = 0.2;
/// Within this of the swept outline a fan in a cell is held against the sheets themselves.
inline constexpr double leaves_within_mm = 6;
/// Angles of a seat are searched to this, degrees: half of what shows at the rim of a large wing, 0.1 mm in 100.
inline constexpr double seat_deg = 0.03;
/// A side pleat is laid on the body by straight stretches so long, in rows so far apart; what comes up between them is
/// allowed for.
inline constexpr double laid_along_mm = 3, laid_across_mm = 1;
/// Outlines are straightened where they bend by less than this, mm.
inline constexpr double outline_mm = 0.005;

/// Heights of seats are searched to this, mm: a hand places no better.
inline constexpr double seat_height_mm = 0.2;

/// A wet bead and the flap's own give bridge so much between a leaf's edge and a side pleat (common practice, no
/// source).
inline constexpr double glue_reach_mm = 1.0;
/// The cover on the back of a fan that goes round, with the glue under it, keeps the pleats so far off the body; so the
/// fan may lean by a few degrees.
inline constexpr double cover_mm = 0.5;
/// Below this, all edges together, a side pleat comes loose: share of its length, and for the last side mm (common
/// practice, no source).
inline constexpr double least_hold_share = 0.25;
inline constexpr double least_touch_mm = 3.0;
/// Shorter touches of an edge are not told.
inline constexpr double shortest_glue_mm = 1.0;
/// Spacing at which leaf edges are tried for touching.
inline constexpr double edge_step_mm = 0.25;

/// Air beside a fan below which it catches when it is spread or carried (common practice, no source).
inline constexpr double seen_clear_mm = 1.0;

/// How far the remedies of a seat are looked for: moves, and pleats more or fewer.
inline constexpr double farthest_move_mm = 60;
inline constexpr int most_more_pleats = 24;

} // namespace fanwright::fan::tolerance
