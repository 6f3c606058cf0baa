#include "traced/outlines.h"

#include "leaf/contour.h"

#include <algorithm>
#include <cmath>

namespace fanwright::traced {
namespace {

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.z - b.z); }

double length_of(const std::vector<Point>& points) {
  double length = 0;
  for (std::size_t k = 1; k < points.size(); ++k)
    length += distance(points[k - 1], points[k]);
  return length;
}

/// The open line whose end lies nearest to `from`, and whether that is its last point.
struct Next {
  std::size_t line = 0;
  bool backwards = false;
  double gap = 1e300;
};

Next nearest(const std::vector<DrawnLine>& open, Point from) {
  Next best;
  for (std::size_t k = 0; k < open.size(); ++k)
    for (const bool backwards : {false, true}) {
      const double gap = distance(from, backwards ? open[k].points.back() : open[k].points.front());
      if (gap < best.gap)
        best = {k, backwards, gap};
    }
  return best;
}

/// Lengthens `chain` at its end by lines from `open` as long as one is near.
void extend(std::vector<Point>& chain, std::vector<DrawnLine>& open, double reach, Joined& result) {
  while (!open.empty()) {
    const Next next = nearest(open, chain.back());
    if (next.gap > reach || (chain.size() > 2 && distance(chain.front(), chain.back()) <= next.gap))
      return;
    std::vector<Point> points = std::move(open[next.line].points);
    open.erase(open.begin() + static_cast<std::ptrdiff_t>(next.line));
    if (next.backwards)
      std::reverse(points.begin(), points.end());
    ++result.joints;
    result.widest_gap = std::max(result.widest_gap, next.gap);
    chain.insert(chain.end(), points.begin() + (next.gap == 0 ? 1 : 0), points.end());
  }
}

} // namespace

Joined joined(std::vector<DrawnLine> lines, double reach) {
  constexpr std::size_t most_open = 3'000; // each is held against each
  Joined result;
  std::vector<DrawnLine> open;
  for (DrawnLine& line : lines) {
    if (line.points.size() < 2)
      continue;
    if (line.closed || distance(line.points.front(), line.points.back()) == 0)
      result.rings.push_back(std::move(line.points));
    else if (open.size() < most_open)
      open.push_back(std::move(line));
    else
      ++result.left_open;
  }
  std::vector<Point> longest;
  while (!open.empty()) {
    std::vector<Point> chain = std::move(open.back().points);
    open.pop_back();
    extend(chain, open, reach, result);
    std::reverse(chain.begin(), chain.end());
    extend(chain, open, reach, result);
    const double gap = distance(chain.front(), chain.back());
    if (chain.size() > 2 && gap <= reach) {
      result.widest_gap = std::max(result.widest_gap, gap);
      result.joints += gap > 0 ? 1 : 0;
      result.rings.push_back(std::move(chain));
      continue;
    }
    ++result.left_open;
    if (length_of(chain) > length_of(longest))
      longest = std::move(chain);
  }
  if (result.rings.empty() && longest.size() > 2) {
    result.straight_closing = distance(longest.front(), longest.back());
    --result.left_open;
    result.rings.push_back(std::move(longest));
  }
  return result;
}

Areas nested(const std::vector<Areas>& outlines) {
  struct Level {
    Areas areas;
    int depth = 0;
  };
  constexpr double inside_share = 0.999;
  std::vector<Areas> by_size = outlines;
  std::stable_sort(by_size.begin(), by_size.end(),
                   [](const Areas& a, const Areas& b) { return area_of(a) > area_of(b); });
  std::vector<Level> levels;
  for (const Areas& one : by_size) {
    int depth = 0;
    Level* overlapped = nullptr;
    for (Level& level : levels) {
      const double common = area_of(shared(one, level.areas));
      if (common >= inside_share * area_of(one))
        depth = std::max(depth, level.depth + 1);
      else if (common > (1 - inside_share) * area_of(one))
        overlapped = &level;
    }
    if (overlapped != nullptr && overlapped->depth == depth)
      overlapped->areas = united(overlapped->areas, one);
    else
      levels.push_back({one, depth});
  }
  std::stable_sort(levels.begin(), levels.end(), [](const Level& a, const Level& b) { return a.depth < b.depth; });
  Areas result;
  for (const Level& level : levels)
    result = level.depth % 2 == 0 ? united(result, level.areas) : without(result, level.areas);
  return result;
}

} // namespace fanwright::traced
