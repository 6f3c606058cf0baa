// Hours and amounts of practised makers. All of them common practice, no source: the middle of the range that is usual
// for card ornaments of about 20 leaves.
#pragma once

namespace fanwright::making {

inline constexpr double cutting_by_hand_min = 2.75;   ///< a leaf; 1.5 to 4
inline constexpr double machine_min = 1.375;          ///< a leaf, unattended; 15 to 40 for 20 leaves
inline constexpr double machine_setup_min = 0.2;      ///< a leaf: sheets in and out, a look at the first cut
inline constexpr double folding_min = 0.25;           ///< a leaf, scoring and folding; 10 to 20 s
inline constexpr double gluing_min = 0.5;             ///< all rows of one leaf or of one joint; 20 to 40 s
inline constexpr double opening_test_min = 2;         ///< a piece
inline constexpr double seam_min = 5;                 ///< a piece, clips included
inline constexpr double pleating_min = 0.15;          ///< a crease of a fan, scored and folded; 6 to 12 s
inline constexpr double fan_gluing_min = 8;           ///< a strip joined, gathered, glued on and spread; 5 to 12
inline constexpr double finishing_min = 15;           ///< a piece; 10 to 20
inline constexpr double second_coat_min = 2;          ///< a piece
inline constexpr double airing_min = 15;              ///< after each coat of sealer; 10 to 20
inline constexpr int leaves_in_pile = 10;             ///< cut, folded and, with slips between, pressed together
inline constexpr double glue_density_g_cm3 = 1.1;     ///< white craft glue, wet; 1.05 to 1.1 (from memory)
inline constexpr double pressed_film_mm = 0.1;        ///< of that glue between two leaves; 0.05 to 0.1
inline constexpr double glitter_layer_g_m2 = 160;     ///< grains 0.2 mm across of 1.35 g/cm3, three fifths covered
inline constexpr double sealer_coats_g_m2 = 2 * 50.0; ///< two light coats, wet
inline constexpr double sealer_caught_on_edges = 0.1; ///< the rest flies between the leaves and past them
inline constexpr double seam_length_per_clip_mm = 40;

} // namespace fanwright::making
