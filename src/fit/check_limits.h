// Every limit of the checks in one place, each with its reason. Lengths mm.
#pragma once

namespace fanwright::fit::limit {

inline constexpr const char* common_practice = "common practice";

/// Lock ratio q = beta x1 / s: below the first an ornament opens well, above the second its paper would have to
/// stretch (docs/model.md).
inline constexpr const char* lock_source = "docs/model.md, lock ratio";
inline constexpr double opens_well_lock = 0.7;
inline constexpr double opens_lock = 0.9;

/// Stretch at which paper tears: 0.75 to 2 % in narrow strips. The peak of the membrane strain is a small spot with
/// firm paper round it; at twice that a tear starts however small the spot (common practice, no source).
inline constexpr const char* strain_source =
    "elongation of paper 0.75 to 2 %, Materials and the Environment, data sheet paper and cardboard";
inline constexpr double easy_strain = 0.02;
inline constexpr double torn_strain = 0.04;

/// Glue film: pressed wet between two leaves 0.05 to 0.1 (common practice), and half of that once dry, as white glue
/// holds 40 to 55 % solids (from memory).
inline constexpr double pressed_film_mm = 0.1;
inline constexpr double dry_film_mm = 0.05;
inline constexpr double dry_glue_share = 0.5;
inline constexpr double glue_density_g_cm3 = 1.1; ///< wet; 1.05 to 1.1 (from memory)

/// Share of the narrowest neck that the hub may take before its hole shows, and before the ring of paper round it is
/// narrower than the hole.
inline constexpr double shown_hub_share = 0.5;
inline constexpr double widest_hub_share = 1.0;

/// Between rows that hold the seam: one alone lets the closed circle turn about it.
inline constexpr int seam_rows = 2;
/// Strips that meet at the seam lie over each other within this: what aligning on a straight edge gives.
inline constexpr double seam_mismatch_mm = 0.5;

/// Pull on the glue, MPa, were it even. What gives first is the paper under the glue: its strength through the
/// thickness (tested by ISO 15754) is 0.3 to 0.7 MPa (from memory).
inline constexpr const char* pull_source =
    "common practice; paper splits under the glue at 0.3 to 0.7 MPa (ISO 15754, values from memory)";
inline constexpr double easy_pull_mpa = 0.3;
inline constexpr double splitting_pull_mpa = 0.7;

/// The foot: what the eye sees under it on a flat table, and what makes it rock.
inline constexpr double seen_lift_mm = 0.5;
inline constexpr double rocking_lift_mm = 1.0;
/// What touches the table: soft tips give way by this much under the piece's own weight.
inline constexpr double touching_mm = 0.2;
/// Angle by which it may be tilted before it falls, degrees: on a table, and on a shelf that nobody brushes past.
inline constexpr double table_tip_deg = 15;
inline constexpr double shelf_tip_deg = 10;
/// Lean of a hanging piece, degrees.
inline constexpr double seen_lean_deg = 1;
inline constexpr double most_lean_deg = 2;
/// A piece opened no further lies flat against a wall.
inline constexpr double wall_piece_deg = 180;

/// Room kept beside pressed-out glue, to any cut edge and to the fold.
inline constexpr double glue_room_mm = 1;
/// Pressed width over row width: a bead that fills its row, and one that is no longer in it.
inline constexpr double filled_row = 1.05;
inline constexpr double flooded_row = 1.5;

/// Sag of a flap held level at its row, as a share of its length: y / L = (L / c)^3 / 8.
inline constexpr double stiff_sag = 0.02;
inline constexpr double limp_sag = 0.06;

/// Air between flaps that face each other once open: less, and they catch when it is opened and closed.
inline constexpr double free_flap_mm = 1;

/// Least detail, by knife and by blade machine: bridge of paper, width of a cut-out, inner radius of a curve.
inline constexpr double knife_bridge_mm = 2, machine_bridge_mm = 1, machine_heavy_bridge_mm = 1.5;
inline constexpr double heavy_for_machine_gsm = 160;
inline constexpr double knife_hole_mm = 3, machine_hole_mm = 2, machine_slot_mm = 0.5;
/// A gap that runs in from the edge: narrower, and the paper beside the knife tears out (common practice, no source).
inline constexpr double knife_gap_mm = 1.5;
inline constexpr double knife_radius_mm = 1;
/// Twice the offset of a trailing blade, 0.25: tighter, it no longer turns in the curve.
inline constexpr double machine_radius_mm = 0.5;

/// Scoring before folding, g/m2: advised, needed; and where folds spring open again.
inline constexpr double score_advised_gsm = 120;
inline constexpr double score_needed_gsm = 150;
inline constexpr double springs_open_gsm = 250;

/// Relative luminance (IEC 61966-2-1) below which a white core shows as a line at every edge.
inline constexpr double dark_luminance = 0.25;

} // namespace fanwright::fit::limit
