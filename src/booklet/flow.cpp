#include "booklet/flow.h"

#include "drawing/words.h"

#include <algorithm>

namespace fanwright::booklet {

namespace {

constexpr double least_shared_gap_mm = 4; ///< only gaps this large take a share of the space left over
constexpr double most_share_mm = 5;       ///< that one gap takes
constexpr Type foot_type{2.6, 3.6, false};

/// Blocks [first, last) that stay together.
struct Group {
  std::size_t first = 0, last = 0;
};

/// One page's blocks, and whether the next page begins by wish (then nothing is shared out).
struct Filled {
  std::vector<const Block*> blocks;
  double used_mm = 0;
  bool ends_early = false;
};

std::vector<Group> groups_of(const Blocks& blocks) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < blocks.size();) {
    std::size_t last = i + 1;
    while (last < blocks.size() && blocks[last - 1].keeps_with_next && !blocks[last].begins_page)
      ++last;
    groups.push_back({i, last});
    i = last;
  }
  return groups;
}

double height_of(const Blocks& blocks, Group group, bool at_top) {
  double height = 0;
  for (std::size_t i = group.first; i < group.last; ++i)
    height += (at_top && i == group.first ? 0 : blocks[i].before_mm) + blocks[i].height_mm;
  return height;
}

void put(Filled& page, const Block& block) {
  page.used_mm += (page.blocks.empty() ? 0 : block.before_mm) + block.height_mm;
  page.blocks.push_back(&block);
}

std::vector<Filled> filled(const Blocks& blocks, double depth_mm) {
  std::vector<Filled> pages(1);
  for (const Group group : groups_of(blocks)) {
    const bool fits = pages.back().used_mm + height_of(blocks, group, pages.back().blocks.empty()) <= depth_mm;
    const bool wished = blocks[group.first].begins_page;
    if ((!fits || wished) && !pages.back().blocks.empty()) {
      pages.back().ends_early = wished;
      pages.emplace_back();
    }
    for (std::size_t i = group.first; i < group.last; ++i) {
      const double before = pages.back().blocks.empty() ? 0 : blocks[i].before_mm;
      // Only inside a group that is itself higher than a page.
      if (pages.back().used_mm + before + blocks[i].height_mm > depth_mm && !pages.back().blocks.empty())
        pages.emplace_back();
      put(pages.back(), blocks[i]);
    }
  }
  pages.back().ends_early = true;
  return pages;
}

/// What each large gap of the page takes of the space left over.
double share_of(const Filled& page, double depth_mm) {
  if (page.ends_early)
    return 0;
  const auto gaps = std::count_if(page.blocks.begin() + 1, page.blocks.end(),
                                  [](const Block* block) { return block->before_mm >= least_shared_gap_mm; });
  return gaps == 0 ? 0 : std::clamp((depth_mm - page.used_mm) / static_cast<double>(gaps), 0.0, most_share_mm);
}

drawing::Page drawn(const Filled& filled_page, const Look& look) {
  drawing::Page page{look.width_mm, look.height_mm, {}};
  const double share = share_of(filled_page, look.depth_mm());
  double y = look.margin_mm;
  for (const Block* block : filled_page.blocks) {
    if (block != filled_page.blocks.front())
      y += block->before_mm + (block->before_mm >= least_shared_gap_mm ? share : 0);
    for (const drawing::Item& item : block->items)
      page.items.push_back(moved(item, look.margin_mm, y));
    y += block->height_mm;
  }
  return page;
}

/// The first line that the words give in the width, with three dots where more follows.
std::string shortened(const std::string& words, double width_mm, const Type& type) {
  const double dots = drawing::words_width_mm("…", type.size_mm, type.bold);
  if (drawing::words_width_mm(words, type.size_mm, type.bold) <= width_mm)
    return words;
  return drawing::broken_into_lines(words, width_mm - dots, type.size_mm, type.bold).front() + "…";
}

} // namespace

std::vector<drawing::Page> set_on_pages(const Blocks& blocks, const Look& look) {
  std::vector<drawing::Page> pages;
  if (blocks.empty())
    return pages;
  for (const Filled& page : filled(blocks, look.depth_mm()))
    pages.push_back(drawn(page, look));
  return pages;
}

void add_feet(std::vector<drawing::Page>& pages, const RunningFoot& foot, const Look& look) {
  const double top = look.height_mm - look.margin_mm - foot_type.line_mm;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Block block;
    const std::string number = foot.number(static_cast<int>(i));
    const double number_width = drawing::words_width_mm(number, foot_type.size_mm);
    block.items.emplace_back(rule(0, -1.4, look.column_mm(), 0.15, look.thin_ink));
    put_words(block, shortened(foot.title, look.column_mm() - number_width - 6, foot_type), 0, 0, look.column_mm(),
              foot_type, look.thin_ink);
    put_words(block, number, 0, 0, look.column_mm(), foot_type, look.thin_ink, drawing::Align::right);
    for (const drawing::Item& item : block.items)
      pages[i].items.push_back(moved(item, look.margin_mm, top));
  }
}

} // namespace fanwright::booklet
