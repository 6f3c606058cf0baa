// The flat strip of a fan: what is cut, scored and glued. Strip coordinates (spread.h): x along the strip from its
// first side, z along the pleats from the gathered end, mm, its front face seen.
#pragma once

#include "design/design.h"
#include "leaf/outline.h"

#include <array>
#include <optional>
#include <variant>
#include <vector>

namespace fanwright::fan {

/// Where the straight line from `a` to `b` comes to lie at this x, in which they differ.
leaf::Point at_x(leaf::Point a, leaf::Point b, double x);

/// Lowest and highest place of a ring at this x, mm; the first is above the second where the ring does not come there.
std::array<double, 2> paper_at(const leaf::Ring& ring, double x);

/// The whole strip, however many sheets it takes.
struct Strip {
  double depth_mm = 0;                        ///< of the pleats: a panel's width
  int panels = 0;                             ///< even
  double flap_mm = 0;                         ///< at the first side; 0: none
  double lap_mm = 0;                          ///< overlap where strips are joined
  bool turned = false;                        ///< the strip of a mirror image: x runs from the last side to the first
  double curve_mm = 0;                        ///< how near curves follow the edge's points
  std::vector<std::vector<leaf::Point>> edge; ///< outer edge from x = 0 to x = length_mm(): runs between corners

  double length_mm() const { return panels * depth_mm; } ///< without the flap
  double height_mm() const;                              ///< along the pleats, of the highest point
};

/// The strip of the mirror image: of the left wing where this is the right one. Its front is the same face of the
/// paper, mountains stay mountains; cut line and scores run the other way.
Strip mirrored(const Strip& strip);

/// How a crease lies on the front face once folded.
enum class Fold { mountain, valley };

/// One stretch of a crease; a crease that the edge cuts in between has several.
struct Score {
  leaf::Point from, to; ///< straight, away from the gathered end
  Fold fold = Fold::valley;
  int crease = 0; ///< counted from the first side; 0 is where the flap is folded
};

/// Where glue goes on the front face: a stretch along the strip, over its whole height. What is glued on has it on its
/// back.
struct GlueStretch {
  double from_x = 0, to_x = 0; ///< mm
};

/// One piece of paper, in strip coordinates of the whole strip.
struct StripPart {
  leaf::Contour cut; ///< counter-clockwise from its lower left corner
  std::vector<Score> scores;
  std::vector<GlueStretch> glue;       ///< flap, and the lap on which the part to its right is glued
  int first_panel = 0, last_panel = 0; ///< from the left, 0 .. panels - 1; a panel with a lap is in two parts
};

/// The strip in as few parts as `most_length_mm` allows, from left to right, of nearly equal length. Parts are joined
/// inside a panel, clear of its creases and where the edge crosses but once. A refusal has no place.
std::variant<std::vector<StripPart>, design::Refusal> parts(const Strip& strip, double most_length_mm);

} // namespace fanwright::fan
