// Numbers, lengths, transforms and view boxes of SVG. Based on: SVG 2, chapters 7 and 8; CSS Values 3, section 6.
#pragma once

#include "leaf/path_data.h"

#include <optional>
#include <string_view>
#include <vector>

namespace fanwright::traced {

/// x' = a x + c y + e, y' = b x + d y + f.
struct Matrix {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
};

/// First `inner`, then `outer`.
Matrix operator*(const Matrix& outer, const Matrix& inner);
leaf::Point operator*(const Matrix& matrix, leaf::Point p);

/// CSS pixels in a millimetre: 96 of them are an inch.
inline constexpr double mm_per_pixel = 25.4 / 96;

/// Takes spaces and at most one comma off the front.
void skip_separator(std::string_view& text);

/// Takes a number off the front of `text`; empty, with nothing taken, when none stands there.
std::optional<double> take_number(std::string_view& text);

/// All numbers of a list; stops where none stands.
std::vector<double> numbers(std::string_view text);

/// A length in CSS pixels; `whole` is what 100 % are. Empty when it is none.
std::optional<double> length(std::string_view text, double whole);

/// Whether it ends in a physical unit: mm, cm, in, pt, pc, Q.
bool is_physical(std::string_view length_text);

/// The transforms of an attribute, the last one first to act. Empty when it cannot be understood.
std::optional<Matrix> transform(std::string_view text);

struct ViewBox {
  double x = 0, y = 0, width = 0, height = 0;
};
std::optional<ViewBox> view_box(std::string_view text);

/// From the view box to a viewport of this width and height whose corner is the origin.
Matrix fit_into(const ViewBox& box, double width, double height, std::string_view preserve_aspect_ratio);

} // namespace fanwright::traced
