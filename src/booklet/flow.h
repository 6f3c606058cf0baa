// Fills pages with blocks.
#pragma once

#include "booklet/block.h"

#include <functional>
#include <string>
#include <vector>

namespace fanwright::booklet {

/// What stands at the foot of a page.
struct RunningFoot {
  std::string title;                      ///< at the left; shortened to fit
  std::function<std::string(int)> number; ///< at the right, for the page with this index
};

/// The blocks on as many pages as they need, in order; blocks that keep with the next stand on one page with it. Space
/// left over at the bottom is shared out between the blocks, a little each. A block higher than a page has one to
/// itself.
std::vector<drawing::Page> set_on_pages(const Blocks& blocks, const Look& look);

/// Adds the foot to each of the pages.
void add_feet(std::vector<drawing::Page>& pages, const RunningFoot& foot, const Look& look);

} // namespace fanwright::booklet
