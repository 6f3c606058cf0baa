// The stencil: a reusable card with windows over the glue rows, so that the paper that shows carries no mark.
//
// How it lies. The card covers one half of a leaf: its long straight edge lies along the spine, its ends are flush with
// the leaf's lowest and highest point, and it stands out beyond the half's outer edge, where fingers hold it. Spine and
// foot together leave it one place only. Everything is given in the leaf coordinates of the right half, that is as seen
// with the spine at the left and the foot towards the maker: for inside rows the leaf lies open, inner face up, its
// left half raised, and the card is pushed into the fold; for between rows the leaf or packet lies folded, the fold at
// the left. Turned over, the card serves a half whose spine is at the right.
//
// How much glue. A bead d across is pressed to a film h thick and spreads to pi d^2 / (4 h); a dab, half a ball d
// across, spreads to a disc sqrt(d^3 / (3 h)) across. (Volumes before and after are equal.) A window is narrower and
// shorter than its row by what the glue spreads beyond itself, so that pressed glue stays inside the row wherever in
// the window it was set.
#pragma once

#include "design/design.h"
#include "leaf/leaf.h"

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::kit {

/// How glue is given through the windows: a bead run from end to end, or single dabs where a bead would be pressed out.
enum class GlueGiven { bead, dabs };

/// A slot with round ends; a round hole when its two ends coincide.
struct StencilWindow {
  std::size_t row = 0;           ///< index into Leaf::rows
  leaf::Point from, to;          ///< centres of the round ends, from the spine outwards, mm
  double radius_mm = 0;          ///< half the window's width
  std::vector<leaf::Point> dabs; ///< where to set one each; empty when a bead is run
};

struct Stencil {
  design::Side side = design::Side::inside;
  GlueGiven glue = GlueGiven::dabs;
  double spread_mm = 0;                 ///< how far pressed glue runs beyond where it was set, on each side
  leaf::Contour card;                   ///< counter-clockwise from the spine's corner at the foot
  double width_mm = 0;                  ///< from the spine to the outer edge
  double foot_z = 0, head_z = 0;        ///< ends of the card: the half's lowest and highest point
  std::vector<leaf::Point> notches;     ///< centres of the half-round notches in the outer edge, from the head down
  double notch_radius_mm = 0;           ///< one notch: inside; two: between. They also tell head from foot
  std::vector<StencilWindow> windows;   ///< from foot to top, and from the spine outwards within a row
  std::vector<std::size_t> rows_by_eye; ///< rows too small or too near the card's edge for a window, in ascending order
};

/// The stencil for the rows of one side. A sentence for the maker when not a single window is possible.
std::variant<Stencil, std::string> stencil(const leaf::Leaf& leaf, design::Side side, const design::Making& making);

/// Cut line of a window, clockwise as every hole.
leaf::Contour cut_line(const StencilWindow& window);

/// Card left between a window and the next cut, mm: bridges of 2 mm by hand, 1.5 mm by a blade machine (common
/// practice, no source).
double least_card_mm(design::Cutting cutting);

/// How far pressed glue runs beyond a bead or dab `bead_mm` across, on each side, mm; negative for a thread of glue
/// thinner than the film.
double spread_beyond_mm(GlueGiven glue, double bead_mm);

/// From one dab to the next, mm; dabs share out a window evenly, so they stand this far apart at least.
double dab_pitch_mm(double bead_mm);

} // namespace fanwright::kit
