// A whole design file from a silhouette: leaves, rows, paper and sheet that suit it, for the maker to go on from.
#pragma once

#include "design/design.h"
#include "traced/traced.h"

#include <string>

namespace fanwright::traced {

/// The text of a design file, two spaces a level. Leaves and paper follow fit's advice for a body of this size, rows
/// place themselves, the sheet is the smallest of A4 to A0 that takes the leaf.
std::string first_design(const Figure& figure, const std::string& title, design::Shows shows);

/// "/home/me/my_pear-2.svg" -> "my_pear-2"; "ornament" when nothing is left of it.
std::string name_from(const std::string& file);

/// The same as a title: "My pear 2"; "Ornament" when nothing is left of it.
std::string title_from(const std::string& file);

} // namespace fanwright::traced
