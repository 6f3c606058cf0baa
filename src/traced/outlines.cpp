#include "traced/outlines.h"

#include "leaf/contour.h"
#include "traced/crossings.h"

#include <algorithm>
#include <cmath>
#include <set>

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

namespace {

/// Outlines sorted into what lies in what, the largest first.
class Nest {
public:
  explicit Nest(const std::vector<Areas>& outlines) : outlines_(outlines) {
    std::stable_sort(outlines_.begin(), outlines_.end(),
                     [](const Areas& a, const Areas& b) { return area_of(a) > area_of(b); });
  }

  /// Empty when the outlines meet too often.
  std::optional<Areas> areas() {
    if (!find_meetings())
      return std::nullopt;
    for (std::size_t k = 0; k < outlines_.size(); ++k) {
      add(k);
      if (work_ > most_work)
        return std::nullopt;
    }
    if (meetings_.empty() && std::all_of(outlines_.begin(), outlines_.end(),
                                         [](const Areas& one) { return one.size() == 1 && one.front().holes.empty(); }))
      return assembled();
    int deepest = 0;
    for (const Level& level : levels_)
      deepest = std::max(deepest, level.depth);
    std::vector<Areas> parts;
    for (int depth = 0; depth <= deepest; depth += 2)
      parts.push_back(without(united(at(depth)), united(at(depth + 1))));
    return united(parts);
  }

private:
  static constexpr double most_work = 2e5; // points of outlines that meet, gone over
  struct Level {
    Areas areas;
    std::vector<std::size_t> members;
    int depth = 0;
    std::size_t within = 0; ///< the level just round it; at depth 0 none
  };

  bool find_meetings() {
    std::vector<Ring> rings;
    std::vector<std::size_t> owners;
    for (std::size_t k = 0; k < outlines_.size(); ++k)
      for (const Area& area : outlines_[k]) {
        rings.push_back(area.outline);
        rings.insert(rings.end(), area.holes.begin(), area.holes.end());
        owners.resize(rings.size(), k);
      }
    const auto crossings = crossings_of(rings);
    if (!crossings)
      return false;
    for (const auto& [a, b] : crossings->rings)
      meetings_.emplace(std::minmax(owners[a], owners[b]));
    return true;
  }

  bool meets(std::size_t outline, const Level& level) const {
    return std::any_of(level.members.begin(), level.members.end(),
                       [&](std::size_t member) { return meetings_.count(std::minmax(outline, member)) > 0; });
  }

  /// Holds the outline against all larger ones. Where it meets none of their edges one of its points tells.
  void add(std::size_t outline) {
    constexpr double inside_share = 0.999;
    const Areas& one = outlines_[outline];
    const double size = area_of(one);
    int depth = 0;
    std::size_t within = 0;
    Level* overlapped = nullptr;
    for (Level& level : levels_) {
      double common = 0;
      if (one.size() == 1 && !meets(outline, level)) {
        common = covers(level.areas, one.front().outline.front()) ? size : 0;
      } else {
        work_ += static_cast<double>(points_in(one) + points_in(level.areas));
        common = area_of(shared(one, level.areas));
      }
      if (common >= inside_share * size) {
        if (level.depth >= depth)
          within = static_cast<std::size_t>(&level - levels_.data());
        depth = std::max(depth, level.depth + 1);
      } else if (common > (1 - inside_share) * size) {
        overlapped = &level;
      }
    }
    if (overlapped != nullptr && overlapped->depth == depth) {
      overlapped->areas = united(overlapped->areas, one);
      overlapped->members.push_back(outline);
    } else {
      levels_.push_back({one, {outline}, depth, within});
    }
  }

  /// Outlines that never meet: each of odd depth is a hole of the one round it.
  Areas assembled() const {
    Areas areas;
    std::vector<std::size_t> place(levels_.size(), 0);
    for (std::size_t k = 0; k < levels_.size(); ++k) {
      const Ring& outline = levels_[k].areas.front().outline;
      if (levels_[k].depth % 2 == 0) {
        place[k] = areas.size();
        areas.push_back({outline, {}});
      } else {
        areas[place[levels_[k].within]].holes.emplace_back(outline.rbegin(), outline.rend());
      }
    }
    return areas;
  }

  std::vector<Areas> at(int depth) const {
    std::vector<Areas> found;
    for (const Level& level : levels_)
      if (level.depth == depth)
        found.push_back(level.areas);
    return found;
  }

  std::vector<Areas> outlines_;
  std::vector<Level> levels_;
  std::set<std::pair<std::size_t, std::size_t>> meetings_;
  double work_ = 0;
};

} // namespace

std::optional<Areas> nested(const std::vector<Areas>& outlines) { return Nest(outlines).areas(); }

} // namespace fanwright::traced
