// Tolerances of the derived leaf, each with its reason.
#pragma once

namespace fanwright::fit::tolerance {

/// The opened outline lies within this share of the ornament's size of the wanted one, or the design is refused: half a
/// millimetre on a large piece, which nobody sees and no hand cuts to.
inline constexpr double outline_share = 0.002;

/// Iterations stop when the farthest point is this near, as a share of the size, and the points on average within this
/// share of the silhouette's breadth, which costs as much of its area. The solver itself is good to 0.0004 of the size.
inline constexpr double settled_share = 0.0008, settled_breadth_share = 0.0015;

/// A leaf that follows a change of the drawing before is left at this share, three quarters of what is asked, as long
/// as the silhouette is covered: the next change is about to come, and what is kept is derived afresh.
inline constexpr double followed_share = 0.0012;

/// What is good to half of `outline_share` and came no nearer than to this share of the step before is left at that.
inline constexpr double slow_share = 0.7;

/// Where less of the silhouette is covered than is wanted, it goes on until the points on average come no nearer than
/// to this share of the step before.
inline constexpr double stuck_share = 0.9;

/// Two pulls are mixed between these shares of the way from the first to the second: a third of the way at least, so
/// that the drawing moves on, and not much further than the second, beyond which nothing is known.
inline constexpr double least_mixed = 0.3, most_mixed = 1.3;

/// Below this share the points are laid out as curves; above it they are joined by straight lines.
inline constexpr double near_share = 0.02;

/// Most solves of the opened form for one size.
inline constexpr int most_solves = 9;

/// Points are pulled back through a form to within this, mm, in at most so many steps: a tenth of what is asked of the
/// outline on the smallest pieces.
inline constexpr double pulled_back_mm = 0.01;
inline constexpr int most_pulls = 6;

/// Beyond the paper a form is continued by its last cell, which is sound for about this far, mm.
inline constexpr double sound_move_mm = 2.0;

/// Share of the wanted silhouette that the opened one must cover (intersection over union), and the share below which
/// the maker is told: what is missing lies at the axis, where the folds stand off it.
inline constexpr double least_overlap = 0.985;
inline constexpr double good_overlap = 0.995;

/// Foreseen below this, a silhouette is not reached: what the hub takes of it is foreseen to about a third.
inline constexpr double hopeless_overlap = 0.94;

/// Foreseen above this, rows that place themselves need not stand further apart than their look has them; and above
/// good_overlap not so far that less than this share of the look's lock ratio is left. Rows that cover no more than the
/// gain further are not worth another look, nor that small changes of the outline bring other rows.
inline constexpr double roomy_overlap = 0.9975, usual_lock_share = 0.6, least_overlap_gain = 0.0003;

/// Where the hub makes the ornament wider than drawn by this share of its size, the eye sees it: 3 mm of 200.
inline constexpr double seen_hub_share = 0.015;

/// Spacing of the points that follow the outline, mm; nearer to the axis than the second they stand closer.
inline constexpr double point_spacing_mm = 1.5;
inline constexpr double near_axis_mm = 10;

/// Derived points become curves within this share of the ornament's size, and never closer than a quarter of what a
/// blade follows, mm: what the points waver by less is no shape.
inline constexpr double curve_share = 0.0002;
inline constexpr double curve_mm = 0.03;

/// The same where less of the silhouette is covered than is wanted: what curves leave of it, mostly on the inside of
/// bends, is 0.05 % on slim pieces then.
inline constexpr double fine_curve_mm = 0.015;

/// A drawn corner sharper than this stays a corner, degrees.
inline constexpr double corner_deg = 8.0;

/// No point of the leaf moves further in one iteration, mm.
inline constexpr double longest_move_mm = 8.0;

/// How often half of a pull is taken back when the leaf that it leads to cannot be.
inline constexpr int most_retreats = 3;

/// What is drawn nearer to the axis than the spine comes is squeezed into the paper next to it: a share of the spine's
/// radius there, and at least so many mm. Less makes a turn that a blade cannot follow, more adds to the silhouette.
inline constexpr double hub_room_share = 0.2, least_hub_room_mm = 1.2;

/// Lock ratio at which outlines of usual proportions have been derived: 16 to 60 leaves, bench/fit.
inline constexpr double sure_lock = 0.45;

/// Most leaves derived in search of remedies for one size: one or two are usual, half a second each.
inline constexpr int most_remedy_tries = 12;

/// Steps of the solver after which the search for one remedy's leaf is given up: usual leaves take 60 to 300, and what
/// takes more is no remedy to propose.
inline constexpr int remedy_steps = 450;

/// Lock ratio beyond which the paper would have to stretch: docs/model.md.
inline constexpr double most_lock = 0.9;

} // namespace fanwright::fit::tolerance
