// Rows that the maker placed one by one.
#pragma once

#include "leaf/leaf.h"

#include <variant>
#include <vector>

namespace fanwright::leaf {

/// The rows scaled to the size (positions by `scale`, widths not), each running outward, sorted from foot to top.
/// Refuses, naming "/rows/3/to" and the like: a strip outside the leaf or nearer than 0.2 mm to a cut, steeper than
/// 60 degrees, nearer than 0.5 mm to another strip, shorter than 1.5 mm; and lists without both sides.
std::variant<std::vector<GlueRow>, design::Refusal> listed_rows(const std::vector<design::ListedRow>& list,
                                                                const Leaf& leaf, double scale);

} // namespace fanwright::leaf
