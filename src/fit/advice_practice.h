// The numbers that advice on leaves, rows and paper rests on. Practice has no source; each says what it was set to
// meet.
#pragma once

namespace fanwright::fit::practice {

/// Lock ratio at the widest place: below the least the cells are slits, above the most the paper is strained
/// (docs/model.md); cells of the usual proportion lie between.
inline constexpr double least_lock = 0.35, usual_lock = 0.46, most_lock = 0.70;

/// Clear paper between neighbouring rows in a body of this radius, mm, from which other bodies follow as radius^0.8:
/// the cells grow with the piece, but not as fast. Set so that slim bodies of 240 to 300 mm come to 35 to 45 leaves and
/// broad ones to 40 to 50 (common practice, no source).
inline constexpr double usual_clear_mm = 8.9, usual_radius_mm = 52, clear_power = 0.8;

/// Closer rows leave no room to keep glue out of the cells; further apart the paper between them hangs through (common
/// practice, no source: rows 12 to 25 mm apart, somewhat less in small pieces), mm.
inline constexpr double least_clear_mm = 5.5, most_clear_mm = 22;
inline constexpr double least_spacing_mm = 12, most_spacing_mm = 25;

/// The range of leaves reaches this share below and above the usual count: 40 to 50, 35 to 45.
inline constexpr double leaves_either_way = 0.125;

/// At least so much paper must stay round the hub at the narrowest neck: the hub's radius as a share of the neck's.
inline constexpr double most_hub_share = 1.0 / 3;

/// A neck is a place narrower than this share of the body both below and above it.
inline constexpr double neck_share = 0.9;

/// The closed stack that clips and presses still hold flat, mm.
inline constexpr double most_stack_mm = 40;

/// Film of pressed glue between two leaves, mm; 0.05 to 0.1.
inline constexpr double film_mm = 0.1;

/// Grammage by height: 120 g/m2 up to 125 mm, then as height^0.46, which gives 170 at 265 mm ("about 120 for small
/// pieces, 160 to 180 for large"); lighter leaves curl, above 250 g/m2 folds spring open.
inline constexpr double small_gsm = 120, small_height_mm = 125, gsm_power = 0.46, most_gsm = 250;
inline constexpr double gsm_either_way = 0.12;

} // namespace fanwright::fit::practice
