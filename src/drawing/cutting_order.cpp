// Based on craft practice for knives and lasers: inside before outside, small before large (common practice, no
// source).
#include "drawing/cutting_order.h"

#include "drawing/bulged_line.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <utility>

namespace fanwright::drawing {

namespace {

/// One cut with what its place in the order depends on.
struct Cut {
  Path path;
  Point start, end;
  std::vector<Point> outline; ///< chords
  bool closed = false;
  Box box;
  double area = 0; ///< mm^2, 0 when open
  int depth = 0;   ///< closed cuts round it, one inside the other
};

/// The outline with each arc as eight chords: near enough to tell what lies inside.
std::vector<Point> chords_of(const BulgedLine& line) {
  constexpr int chords = 8;
  std::vector<Point> points;
  for (std::size_t i = 0; i < line.vertices.size(); ++i) {
    const BulgedVertex& vertex = line.vertices[i];
    points.push_back(vertex.at);
    if (vertex.bulge == 0 || (i + 1 == line.vertices.size() && !line.closed))
      continue;
    for (int k = 1; k < chords; ++k)
      points.push_back(along(vertex, line.vertices[(i + 1) % line.vertices.size()].at, k / (1.0 * chords)));
  }
  return points;
}

double area_within(const std::vector<Point>& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point &a = outline[i], &b = outline[(i + 1) % outline.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return std::abs(twice) / 2;
}

std::optional<Cut> cut_of(Path path) {
  const std::vector<BulgedLine> lines = bulged_lines(path.segments);
  if (lines.empty())
    return std::nullopt;
  Cut cut;
  cut.outline = chords_of(lines[0]);
  cut.start = cut.outline.front();
  cut.end = lines[0].closed ? cut.start : cut.outline.back();
  cut.closed = std::hypot(cut.end.x - cut.start.x, cut.end.y - cut.start.y) < 1e-6; // some come back without a Close
  cut.box = *box_round(lines);
  cut.area = cut.closed ? area_within(cut.outline) : 0;
  cut.path = std::move(path);
  return cut;
}

/// One path for each subpath.
std::vector<Path> taken_apart(const Path& path) {
  std::vector<Path> parts;
  std::optional<Point> start; // where a subpath goes on from after a Close
  bool closed = false;
  for (const Segment& segment : path.segments) {
    const Move* move = std::get_if<Move>(&segment);
    if (move != nullptr || parts.empty() || closed) {
      parts.push_back({path.step, {}, path.pen});
      start = move != nullptr ? move->to : start.value_or(Point{});
      parts.back().segments.push_back(Move{*start});
    }
    if (move == nullptr)
      parts.back().segments.push_back(segment);
    closed = std::holds_alternative<Close>(segment);
  }
  return parts;
}

/// Even-odd rule (a ray to the right).
bool surrounds(const std::vector<Point>& outline, const Point& point) {
  bool inside = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point &a = outline[i], &b = outline[(i + 1) % outline.size()];
    if ((a.y > point.y) != (b.y > point.y) && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y))
      inside = !inside;
  }
  return inside;
}

/// Most of the cut's corners must lie inside: some may touch the outline.
bool lies_inside(const Cut& cut, const Cut& round) {
  const bool box_inside = cut.box.low.x >= round.box.low.x && cut.box.low.y >= round.box.low.y &&
                          cut.box.high.x <= round.box.high.x && cut.box.high.y <= round.box.high.y;
  if (!round.closed || !box_inside)
    return false;
  const auto inside = std::count_if(cut.outline.begin(), cut.outline.end(),
                                    [&](const Point& point) { return surrounds(round.outline, point); });
  return 2 * static_cast<std::size_t>(inside) > cut.outline.size();
}

/// Depths from the largest down, so that whatever lies inside a cut is deeper than it, whatever rounding does.
void find_depths(std::vector<Cut>& cuts) {
  std::stable_sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) { return a.area > b.area; });
  for (std::size_t i = 0; i < cuts.size(); ++i)
    for (std::size_t round = 0; round < i; ++round)
      if (cuts[i].depth <= cuts[round].depth && lies_inside(cuts[i], cuts[round]))
        cuts[i].depth = cuts[round].depth + 1;
}

/// Sizes within a factor of two are one class.
int size_class(const Cut& cut) {
  constexpr double smallest_mm = 1e-3;
  const double diagonal = std::hypot(cut.box.high.x - cut.box.low.x, cut.box.high.y - cut.box.low.y);
  return static_cast<int>(std::floor(std::log2(std::clamp(diagonal, smallest_mm, 1e9))));
}

using Order = std::vector<Cut*>;

/// Puts cuts [first, last) in the order of nearest starts; gives where the last one ends.
Point order_by_travel(Order::iterator first, Order::iterator last, Point from) {
  for (; first != last; ++first) {
    const auto way = [&](const Cut* cut) { return std::hypot(cut->start.x - from.x, cut->start.y - from.y); };
    const auto nearest = std::min_element(first, last, [&](const Cut* a, const Cut* b) { return way(a) < way(b); });
    std::rotate(first, nearest, std::next(nearest)); // keeps the others in their order
    from = (*first)->end;
  }
  return from;
}

Order order_of(std::vector<Cut>& cuts) {
  find_depths(cuts);
  Order order;
  for (Cut& cut : cuts)
    order.push_back(&cut);
  const auto rank = [](const Cut* cut) { return std::pair(-cut->depth, size_class(*cut)); };
  std::stable_sort(order.begin(), order.end(), [&](const Cut* a, const Cut* b) { return rank(a) < rank(b); });
  Point from{0, 0};
  for (auto first = order.begin(); first != order.end();) {
    const auto last = std::find_if(first, order.end(), [&](const Cut* cut) { return rank(cut) != rank(*first); });
    from = order_by_travel(first, last, from);
    first = last;
  }
  return order;
}

} // namespace

std::vector<Path> in_cutting_order(std::vector<Path> paths) {
  std::vector<Path> ordered;
  std::vector<Cut> cuts;
  for (Path& path : paths) {
    if (path.step != Step::cut && path.step != Step::perforate) {
      ordered.push_back(std::move(path));
      continue;
    }
    for (Path& part : taken_apart(path))
      if (auto cut = cut_of(std::move(part)))
        cuts.push_back(std::move(*cut));
  }
  for (Cut* cut : order_of(cuts))
    ordered.push_back(std::move(cut->path));
  return ordered;
}

} // namespace fanwright::drawing
