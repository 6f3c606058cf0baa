// A whole design file from a silhouette: leaves, rows, paper and sheet that suit it, for the maker to go on from.
#pragma once

#include "design/design.h"
#include "fit/leaf_of.h"
#include "traced/traced.h"

#include <string>
#include <variant>

namespace fanwright::traced {

/// The text of a design file, two spaces a level. Leaves and paper follow fit's advice for a body of this size, rows
/// place themselves, the sheet is the smallest of A4 to A0 that takes the leaf.
std::string first_design(const Figure& figure, const std::string& title, design::Shows shows);

struct Tried {
  std::string text;     ///< of a design file
  std::string why_flat; ///< a sentence, where the figure had to become the flat leaf
};

/// A design that opens into the figure, where there is a leaf that does (it is looked for); else one with the figure as
/// the flat leaf. A refusal when the figure makes no sound design.
std::variant<Tried, design::Refusal> design_that_opens(const Figure& figure, const std::string& title,
                                                       const fit::Options& options = {});

/// "/home/me/my_pear-2.svg" -> "my_pear-2"; "ornament" when nothing is left of it.
std::string name_from(const std::string& file);

/// The same as a title: "My pear 2"; "Ornament" when nothing is left of it.
std::string title_from(const std::string& file);

} // namespace fanwright::traced
