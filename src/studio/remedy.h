// Changes of the design file that may do away with a finding: what a maker would try first, to be tried before it is
// proposed.
#pragma once

#include "design/design.h"
#include "fit/check.h"
#include "studio/told.h"

#include <string>
#include <vector>

namespace fanwright::studio {

/// Sets of changes for a finding of `size`, the smallest change first; none for findings that ask for another drawing.
/// `text` is the design's own. What only this size is to have is written into the size.
std::vector<std::vector<told::Change>> remedies(const std::string& text, const design::Design& design,
                                                const design::Size& size, const fit::Finding& finding);

/// Whether `after` is without the finding and no other verdict is worse than in `before`.
bool helps(const fit::Finding& finding, const std::vector<fit::Finding>& before,
           const std::vector<fit::Finding>& after);

} // namespace fanwright::studio
