// Every limit of the leaf in one place, each with its reason. Lengths mm.
#pragma once

namespace fanwright::leaf {

/// Ends of the silhouette this near x = 0 are meant to lie on the spine; a quarter of what a hand can place.
inline constexpr double spine_snap_mm = 0.01;
/// Paper narrower than this between two cuts tears before it is glued (common practice, no source).
inline constexpr double cut_out_clearance_mm = 0.5;
/// Nearer to a cut edge than this, glue is pressed out of the fold.
inline constexpr double listed_row_clearance_mm = 0.2;
/// Least clear paper between two strips: without any, the paper between them would have to stretch.
inline constexpr double strip_clearance_mm = 0.5;
/// A dab shorter than this holds nothing.
inline constexpr double shortest_row_mm = 1.5;
/// Length the lowest and highest of evenly spaced rows must have; they carry the ends of the ornament.
inline constexpr double shortest_end_row_mm = 3.0;
/// Steeper rows would run nearly along the spine and no longer divide the leaf into cells.
inline constexpr double steepest_row_deg = 60.0;

inline constexpr double narrowest_leaf_mm = 5.0;
inline constexpr double lowest_leaf_mm = 10.0;
inline constexpr double largest_leaf_mm = 2000.0;
inline constexpr double shortest_spine_mm = 5.0;

/// Bounds on work: geometry checks stay below about a second at these.
inline constexpr int most_path_commands = 20'000;
inline constexpr double largest_coordinate = 1e5; ///< file units
inline constexpr int most_vertices = 8'000;
inline constexpr int most_cut_outs = 200;
inline constexpr int most_rows = 400;

} // namespace fanwright::leaf
