#include "sheets/exact.h"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace fanwright::sheets {

namespace {

__extension__ using Wide = __int128;

struct Edge {
  Spot from, to;
  std::int64_t left() const { return std::min(from.x, to.x); }
  std::int64_t right() const { return std::max(from.x, to.x); }
  std::int64_t bottom() const { return std::min(from.z, to.z); }
  std::int64_t top() const { return std::max(from.z, to.z); }
};

int side(Spot from, Spot to, Spot p) {
  const std::int64_t area = cross(to - from, p - from);
  return area > 0 ? 1 : area < 0 ? -1 : 0;
}

bool boxes_apart(const Edge& a, const Edge& b, std::int64_t gap) {
  return a.left() - b.right() >= gap || b.left() - a.right() >= gap || a.bottom() - b.top() >= gap ||
         b.bottom() - a.top() >= gap;
}

bool touch(const Edge& a, const Edge& b) {
  if (boxes_apart(a, b, 1))
    return false;
  return side(a.from, a.to, b.from) * side(a.from, a.to, b.to) <= 0 &&
         side(b.from, b.to, a.from) * side(b.from, b.to, a.to) <= 0;
}

/// Distance from p to the edge at least `gap`, compared as squares times the edge's squared length.
bool apart(Spot p, const Edge& edge, std::int64_t gap) {
  const Spot along = edge.to - edge.from, reach = p - edge.from;
  const std::int64_t length2 = dot(along, along), t = dot(reach, along);
  const Wide gap2 = static_cast<Wide>(gap) * gap;
  if (t <= 0)
    return dot(reach, reach) >= gap2;
  if (t >= length2)
    return dot(p - edge.to, p - edge.to) >= gap2;
  const Wide area = cross(along, reach);
  return area * area >= gap2 * length2;
}

/// Boxes a gap apart side by side are a gap apart; nothing else needs the full question.
bool apart(const Edge& a, const Edge& b, std::int64_t gap) {
  if (boxes_apart(a, b, gap))
    return true;
  return !touch(a, b) && apart(a.from, b, gap) && apart(a.to, b, gap) && apart(b.from, a, gap) && apart(b.to, a, gap);
}

/// Inside or on the loop.
bool covers(const Loop& loop, Spot p) {
  bool inside = false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Spot a = loop[i], b = loop[(i + 1) % loop.size()];
    if (touch({a, b}, {p, p}))
      return true;
    if ((a.z > p.z) != (b.z > p.z) && (side(a, b, p) > 0) == (b.z > a.z))
      inside = !inside;
  }
  return inside;
}

bool on_paper(const Shape& shape, Spot p) {
  return covers(shape.outline, p) &&
         std::none_of(shape.holes.begin(), shape.holes.end(), [p](const Loop& hole) { return covers(hole, p); });
}

std::vector<Edge> edges_of(const Shape& shape, const Extent& near) {
  std::vector<Edge> edges;
  const auto add = [&](const Loop& loop) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Edge edge{loop[i], loop[(i + 1) % loop.size()]};
      if (edge.right() >= near.left && edge.left() <= near.right && edge.top() >= near.bottom &&
          edge.bottom() <= near.top)
        edges.push_back(edge);
    }
  };
  add(shape.outline);
  for (const Loop& hole : shape.holes)
    add(hole);
  return edges;
}

/// Whether a direction points into the corner that opens anticlockwise from `begin` to `end`, or along its beginning.
bool points_into(Spot direction, Spot begin, Spot end) {
  const auto between = [](Spot from, Spot to, Spot d) { return cross(from, d) > 0 && cross(d, to) > 0; };
  if (cross(begin, direction) == 0 && dot(begin, direction) > 0)
    return true;
  const std::int64_t turn = cross(begin, end);
  if (turn > 0)
    return between(begin, end, direction);
  if (turn == 0)
    return cross(begin, direction) > 0;
  return !between(end, begin, direction) && !(cross(end, direction) == 0 && dot(end, direction) > 0);
}

/// What a piece's paper looks like near a point of its edge: a corner, anticlockwise from `begin` to `end`.
struct Corner {
  Spot begin, end;
};

/// The corners of a shape at a point; none where the point is not on its edge. Paper is to the left of every edge.
void add_corners(const Loop& loop, Spot p, std::vector<Corner>& corners) {
  const std::size_t size = loop.size();
  for (std::size_t i = 0; i < size; ++i) {
    const Spot from = loop[i], to = loop[(i + 1) % size], before = loop[(i + size - 1) % size];
    if (from == p)
      corners.push_back({to - from, before - from});
    else if (!(to == p) && touch({from, to}, {p, p}))
      corners.push_back({to - from, from - to});
  }
}

std::vector<Corner> corners_at(const Shape& shape, Spot p) {
  std::vector<Corner> corners;
  add_corners(shape.outline, p, corners);
  for (const Loop& hole : shape.holes)
    add_corners(hole, p, corners);
  return corners;
}

bool corners_overlap(const std::vector<Corner>& first, const std::vector<Corner>& second) {
  for (const Corner& a : first)
    for (const Corner& b : second)
      if (points_into(a.begin, b.begin, b.end) || points_into(b.begin, a.begin, a.end))
        return true;
  return false;
}

/// Where loops of the two cross or meet, and whether paper lies on paper there.
bool overlap_where_they_meet(const Shape& a, const Shape& b) {
  const auto at_spots = [](const Shape& one, const Shape& other) {
    const auto on_loop = [&](const Loop& loop) {
      return std::any_of(loop.begin(), loop.end(),
                         [&](Spot p) { return corners_overlap(corners_at(one, p), corners_at(other, p)); });
    };
    return on_loop(one.outline) || std::any_of(one.holes.begin(), one.holes.end(), on_loop);
  };
  return at_spots(a, b) || at_spots(b, a);
}

bool cross_each_other(const Edge& a, const Edge& b) {
  return side(a.from, a.to, b.from) * side(a.from, a.to, b.to) < 0 &&
         side(b.from, b.to, a.from) * side(b.from, b.to, a.to) < 0;
}

/// Whether a spot of the outline that is not on the other's edge lies on its paper; where all are on its edge, what
/// they look like there tells.
bool lies_on(const Shape& one, const Shape& other) {
  for (const Spot p : one.outline)
    if (corners_at(other, p).empty())
      return on_paper(other, p);
  return false;
}

/// No common area; edges and corners may meet.
bool touch_at_most(const Shape& a, const Shape& b) {
  const std::vector<Edge> first = edges_of(a, extent(b.outline)), second = edges_of(b, extent(a.outline));
  for (const Edge& one : first)
    for (const Edge& other : second)
      if (cross_each_other(one, other))
        return false;
  return !overlap_where_they_meet(a, b) && !lies_on(a, b) && !lies_on(b, a);
}

Extent grown(const Extent& box, std::int64_t by) {
  return {box.left - by, box.bottom - by, box.right + by, box.top + by};
}

/// `second` is sorted by left ends, so that only edges in reach are looked at.
bool edges_apart(const std::vector<Edge>& first, std::vector<Edge> second, std::int64_t gap) {
  std::stable_sort(second.begin(), second.end(), [](const Edge& a, const Edge& b) { return a.left() < b.left(); });
  std::int64_t widest = 0;
  for (const Edge& edge : second)
    widest = std::max(widest, edge.right() - edge.left());
  for (const Edge& edge : first) {
    const auto begin = std::lower_bound(second.begin(), second.end(), edge.left() - gap - widest,
                                        [](const Edge& e, std::int64_t left) { return e.left() < left; });
    for (auto other = begin; other != second.end() && other->left() < edge.right() + gap; ++other)
      if (!apart(edge, *other, gap))
        return false;
  }
  return true;
}

} // namespace

bool apart(const Shape& a, const Shape& b, std::int64_t gap_um) {
  assert(gap_um >= 0);
  const Extent box_a = extent(a.outline), box_b = extent(b.outline);
  if (box_a.left - box_b.right >= gap_um || box_b.left - box_a.right >= gap_um || box_a.bottom - box_b.top >= gap_um ||
      box_b.bottom - box_a.top >= gap_um)
    return true;
  if (gap_um == 0)
    return touch_at_most(a, b);
  if (!edges_apart(edges_of(a, grown(box_b, gap_um)), edges_of(b, grown(box_a, gap_um)), gap_um))
    return false;
  // Edges are a gap and so at least a micrometre apart: one point of each tells whether one lies on the other's paper.
  return !on_paper(a, b.outline[0]) && !on_paper(b, a.outline[0]);
}

std::optional<std::pair<std::size_t, std::size_t>> first_conflict(const std::vector<Shape>& pieces,
                                                                  std::int64_t gap_um) {
  std::vector<Extent> boxes;
  boxes.reserve(pieces.size());
  for (const Shape& piece : pieces)
    boxes.push_back(extent(piece.outline));
  std::vector<std::size_t> by_left(pieces.size());
  std::iota(by_left.begin(), by_left.end(), 0);
  std::stable_sort(by_left.begin(), by_left.end(),
                   [&boxes](std::size_t a, std::size_t b) { return boxes[a].left < boxes[b].left; });
  for (std::size_t i = 0; i < by_left.size(); ++i)
    for (std::size_t k = i + 1; k < by_left.size(); ++k) {
      const std::size_t a = by_left[i], b = by_left[k];
      if (boxes[b].left - boxes[a].right >= gap_um)
        break;
      if (!apart(pieces[a], pieces[b], gap_um))
        return std::minmax(a, b);
    }
  return std::nullopt;
}

bool crosses_itself(const Loop& loop) {
  const std::size_t size = loop.size();
  if (size < 3)
    return true;
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t k = i + 2; k < size; ++k)
      if (!(i == 0 && k + 1 == size) && touch({loop[i], loop[i + 1]}, {loop[k], loop[(k + 1) % size]}))
        return true;
  return false;
}

} // namespace fanwright::sheets
