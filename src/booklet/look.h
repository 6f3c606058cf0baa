// How the booklet looks: page, margins, sizes of type, colours.
#pragma once

#include "drawing/drawing.h"

#include <string_view>

namespace fanwright::booklet {

enum class PageSize { a4, letter };

/// Type of one kind of line: em square and distance of baselines, mm.
struct Type {
  double size_mm = 3.35;
  double line_mm = 4.75;
  bool bold = false;
};

inline constexpr Type body_type{3.35, 4.75, false};
inline constexpr Type strong_type{3.35, 4.75, true};
inline constexpr Type small_type{2.85, 4.0, false};
inline constexpr Type table_head_type{2.85, 3.7, true};
inline constexpr Type section_type{6.2, 8.0, true};
inline constexpr Type step_type{4.3, 5.6, true};

/// The type area of a page, and what lies around it.
struct Look {
  double width_mm = 210, height_mm = 297;
  double margin_mm = 15;
  double foot_mm = 9; ///< strip above the lower margin for the running foot
  drawing::Colour ink = {0.13, 0.13, 0.14};
  drawing::Colour accent;                        ///< of headings and rules, readable on white
  drawing::Colour tint;                          ///< of grounds behind text, a breath of the accent
  drawing::Colour faint = {0.80, 0.80, 0.81};    ///< of rules between rows and of grid lines
  drawing::Colour thin_ink = {0.36, 0.36, 0.38}; ///< of captions and the running foot

  double column_mm() const { return width_mm - 2 * margin_mm; }
  double depth_mm() const { return height_mm - 2 * margin_mm - foot_mm; }
};

/// A4 is 210 x 297 mm (ISO 216), letter 8.5 x 11 in (ASME Y14.1). `paper_colour` is the design's, sRGB #rrggbb.
Look look_of(PageSize page, std::string_view paper_colour);

/// Contrast of two colours, 1..21, as Web Content Accessibility Guidelines 2.1 define it ("contrast ratio").
double contrast(const drawing::Colour& a, const drawing::Colour& b);

/// The colour made as dark as need be for `least` contrast against white; hue and saturation stay.
drawing::Colour readable(const drawing::Colour& colour, double least = 4.5);

/// From sRGB #rrggbb; black when it is not of that form.
drawing::Colour colour_of(std::string_view hexadecimal);

} // namespace fanwright::booklet
