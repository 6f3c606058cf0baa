// Pieces counted before they are united: never more than there are.
#include "traced/pieces.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace fanwright::traced {
namespace {

using leaf::Box;

TEST(pieces, apart_in_rows_and_columns_are_all_counted) {
  std::vector<Box> boxes;
  for (int column = 0; column < 20; ++column)
    for (int row = 0; row < 20; ++row)
      boxes.push_back({9.0 * column, 9.0 * column + 6, 9.0 * row, 9.0 * row + 6});
  EXPECT_EQ(groups_of(boxes), 400u);
  boxes.push_back({-1, 200, 85, 87});
  EXPECT_EQ(groups_of(boxes), 381u) << "one across a row";
  EXPECT_EQ(groups_of({}), 0u);
}

/// As groups are: whatever reaches one of a group belongs to it.
std::size_t groups_by_pairs(const std::vector<Box>& boxes) {
  std::vector<std::size_t> group(boxes.size());
  for (std::size_t k = 0; k < boxes.size(); ++k)
    group[k] = k;
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = 0; j < boxes.size(); ++j)
      if (boxes[i].left <= boxes[j].right && boxes[j].left <= boxes[i].right && boxes[i].bottom <= boxes[j].top &&
          boxes[j].bottom <= boxes[i].top)
        std::replace(group.begin(), group.end(), std::size_t(group[i]), std::size_t(group[j]));
  std::sort(group.begin(), group.end());
  return static_cast<std::size_t>(std::unique(group.begin(), group.end()) - group.begin());
}

RC_GTEST_PROP(pieces, are_never_counted_twice, ()) {
  const auto within = [](int from, int to) { return *rc::gen::resize(100, rc::gen::inRange(from, to)); };
  std::vector<Box> boxes;
  for (auto count = within(1, 30); count > 0; --count) {
    const double left = within(0, 100), bottom = within(0, 100);
    boxes.push_back({left, left + within(1, 20), bottom, bottom + within(1, 20)});
  }
  const std::size_t found = groups_of(boxes);
  RC_ASSERT(found >= 1u);
  RC_ASSERT(found <= groups_by_pairs(boxes));
}

} // namespace
} // namespace fanwright::traced
