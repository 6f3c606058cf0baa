#include "traced/crossings.h"

#include "leaf/contour.h"

#include <algorithm>
#include <cmath>

namespace fanwright::traced {
namespace {

using leaf::Box;

struct Edge {
  Point a, b;
  std::size_t ring = 0, index = 0;
};

/// Twice the area of a, b, p; its sign is the side of the line on which p lies.
double side(Point a, Point b, Point p) { return (b.x - a.x) * (p.z - a.z) - (p.x - a.x) * (b.z - a.z); }

/// Negative when the edges cross, 0 when they merely touch, positive when they are apart.
int apart(const Edge& p, const Edge& q) {
  if (std::max(p.a.x, p.b.x) < std::min(q.a.x, q.b.x) || std::max(q.a.x, q.b.x) < std::min(p.a.x, p.b.x) ||
      std::max(p.a.z, p.b.z) < std::min(q.a.z, q.b.z) || std::max(q.a.z, q.b.z) < std::min(p.a.z, p.b.z))
    return 1;
  const double one = side(p.a, p.b, q.a), other = side(p.a, p.b, q.b);
  const double third = side(q.a, q.b, p.a), fourth = side(q.a, q.b, p.b);
  if ((one > 0 && other > 0) || (one < 0 && other < 0) || (third > 0 && fourth > 0) || (third < 0 && fourth < 0))
    return 1;
  return one != 0 && other != 0 && third != 0 && fourth != 0 ? -1 : 0;
}

class Grid {
public:
  explicit Grid(const std::vector<Ring>& rings) {
    box_ = {1e300, -1e300, 1e300, -1e300};
    std::size_t edges = 0;
    for (const Ring& ring : rings) {
      const Box own = leaf::bounds(ring);
      box_ = {std::min(box_.left, own.left), std::max(box_.right, own.right), std::min(box_.bottom, own.bottom),
              std::max(box_.top, own.top)};
      edges += ring.size();
    }
    across_ = std::clamp(static_cast<int>(std::sqrt(static_cast<double>(edges))), 4, 1024);
    cell_ = std::max({box_.width(), box_.height(), 1e-9}) / across_;
    first_.assign(static_cast<std::size_t>(across_ + 1) * static_cast<std::size_t>(across_ + 1), none);
    edges_.reserve(edges);
  }

  /// Holds the edge against all that were added before; false when there are too many of them, or too many crossings.
  bool add(const Edge& edge, std::size_t ring_size, Crossings& found) {
    constexpr double most_pairs = 4e6; // a drawing of 100,000 edges that do not cross has about a million
    constexpr double most_crossings = 30'000;
    edges_.push_back(edge);
    each_cell(edge, [&](std::size_t cell) {
      for (std::size_t entry = first_[cell]; entry != none && pairs_ <= most_pairs; entry = entries_[entry].next) {
        ++pairs_;
        hold(edge, edges_[entries_[entry].edge], ring_size, found);
      }
      entries_.push_back({edges_.size() - 1, first_[cell]});
      first_[cell] = entries_.size() - 1;
    });
    return pairs_ <= most_pairs && found.count <= most_crossings;
  }

private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  struct Entry {
    std::size_t edge, next;
  };

  static void hold(const Edge& edge, const Edge& other, std::size_t ring_size, Crossings& found) {
    const bool same = edge.ring == other.ring;
    if (same && (edge.index == other.index + 1 || edge.index + 1 == other.index + ring_size))
      return;
    const int gap = apart(edge, other);
    if (gap > 0)
      return;
    found.count += gap < 0 ? 1 : 0;
    if (!same)
      found.rings.emplace_back(other.ring, edge.ring);
  }

  int column(double x) const { return std::clamp(static_cast<int>((x - box_.left) / cell_), 0, across_); }
  int row(double z) const { return std::clamp(static_cast<int>((z - box_.bottom) / cell_), 0, across_); }

  /// Every cell that the edge passes through, column by column.
  template <typename Act> void each_cell(const Edge& edge, const Act& act) const {
    const Point left = edge.a.x < edge.b.x ? edge.a : edge.b, right = edge.a.x < edge.b.x ? edge.b : edge.a;
    const double rise = right.x > left.x ? (right.z - left.z) / (right.x - left.x) : 0;
    const auto height = [&](double x) { return left.z + rise * (x - left.x); };
    const int last = column(right.x);
    for (int c = column(left.x); c <= last; ++c) {
      const double from = c == column(left.x) ? left.z : height(box_.left + c * cell_);
      const double to = c == last ? right.z : height(box_.left + (c + 1) * cell_);
      const int top = row(std::max(from, to));
      for (int r = row(std::min(from, to)); r <= top; ++r)
        act(static_cast<std::size_t>(r) * static_cast<std::size_t>(across_ + 1) + static_cast<std::size_t>(c));
    }
  }

  Box box_;
  int across_ = 4;
  double cell_ = 1, pairs_ = 0;
  std::vector<Edge> edges_;
  std::vector<Entry> entries_;
  std::vector<std::size_t> first_; ///< of each cell's list
};

} // namespace

std::optional<Crossings> crossings_of(const std::vector<Ring>& rings) {
  Crossings found;
  Grid grid(rings);
  for (std::size_t k = 0; k < rings.size(); ++k)
    for (std::size_t i = 0; i < rings[k].size(); ++i)
      if (!grid.add({rings[k][i], rings[k][(i + 1) % rings[k].size()], k, i}, rings[k].size(), found))
        return std::nullopt;
  std::sort(found.rings.begin(), found.rings.end());
  found.rings.erase(std::unique(found.rings.begin(), found.rings.end()), found.rings.end());
  return found;
}

} // namespace fanwright::traced
