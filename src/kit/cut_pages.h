// Pages for cutting machines: the sheets of the plan, and one leaf alone. On layers that a machine acts on there is
// nothing but what it shall do; rulers and words are notes, and lie beside the leaves.
#pragma once

#include "kit/measured_page.h"
#include "kit/part.h"

#include <vector>

namespace fanwright::kit {

struct CutPages {
  std::vector<MeasuredPage> sheets; ///< one for each layout of the plan, of the maker's own sheet, of whole leaves or
                                    ///< of halves
  std::vector<MeasuredPage> fans;   ///< one for each sheet of fans
  MeasuredPage leaf;                ///< one whole leaf, unfolded, inner face up
};

/// "12 right halves and 1 left half"; one of both at least.
std::string words_of_halves(std::size_t right, std::size_t left);

CutPages cut_pages(const design::Design& design, const Part& part);

} // namespace fanwright::kit
