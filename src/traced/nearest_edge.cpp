#include "traced/nearest_edge.h"

#include "leaf/contour.h"

#include <algorithm>
#include <cmath>

namespace fanwright::traced {

struct NearestEdge::Best {
  double squared = 1e300;
  const Edge* edge = nullptr;
  double share = 0; ///< along the edge
};

NearestEdge::NearestEdge(const std::vector<Ring>& rings) {
  leaf::Box box{1e300, -1e300, 1e300, -1e300};
  for (const Ring& ring : rings) {
    for (std::size_t k = 0; k < ring.size(); ++k)
      edges_.push_back({ring[k], ring[k + 1 == ring.size() ? 0 : k + 1]});
    const leaf::Box own = leaf::bounds(ring);
    box = {std::min(box.left, own.left), std::max(box.right, own.right), std::min(box.bottom, own.bottom),
           std::max(box.top, own.top)};
  }
  const int across = std::clamp(static_cast<int>(edges_.size() / 8), 4, 256);
  side_ = std::max({box.width(), box.height(), 1e-300}) / across;
  left_ = box.left;
  bottom_ = box.bottom;
  columns_ = static_cast<int>(box.width() / side_) + 1;
  rows_ = static_cast<int>(box.height() / side_) + 1;
  cells_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
  for (std::size_t k = 0; k < edges_.size(); ++k) {
    const auto [a, b] = edges_[k];
    for (int row = row_of(std::min(a.z, b.z)); row <= row_of(std::max(a.z, b.z)); ++row)
      for (int column = column_of(std::min(a.x, b.x)); column <= column_of(std::max(a.x, b.x)); ++column)
        cells_[cell(column, row)].push_back(k);
  }
}

std::size_t NearestEdge::cell(int column, int row) const {
  return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(column);
}
int NearestEdge::column_of(double x) const {
  return static_cast<int>(std::clamp(std::floor((x - left_) / side_), 0.0, columns_ - 1.0));
}
int NearestEdge::row_of(double z) const {
  return static_cast<int>(std::clamp(std::floor((z - bottom_) / side_), 0.0, rows_ - 1.0));
}

void NearestEdge::look(const Edge& edge, Point p, Best& best) const {
  const double dx = edge.b.x - edge.a.x, dz = edge.b.z - edge.a.z, squared = dx * dx + dz * dz;
  const double t = squared > 0 ? std::clamp(((p.x - edge.a.x) * dx + (p.z - edge.a.z) * dz) / squared, 0.0, 1.0) : 0.0;
  const double x = edge.a.x + t * dx - p.x, z = edge.a.z + t * dz - p.z;
  // Among equals the first one, whatever cell it was found in.
  if (x * x + z * z < best.squared || (x * x + z * z == best.squared && &edge < best.edge))
    best = {x * x + z * z, &edge, t};
}

/// The cells of a square about one, its rim alone.
void NearestEdge::look_in_square(int column, int row, int reach, Point p, Best& best) const {
  for (int r = std::max(0, row - reach); r <= std::min(rows_ - 1, row + reach); ++r) {
    const bool whole_row = r == row - reach || r == row + reach;
    const int step = whole_row || reach == 0 ? 1 : 2 * reach;
    for (int c = column - reach; c <= column + reach; c += step)
      if (c >= 0 && c < columns_)
        for (const std::size_t k : cells_[cell(c, r)])
          look(edges_[k], p, best);
  }
}

Foot NearestEdge::to(Point p) const {
  constexpr int furthest = 6; // cells; beyond, going over all edges is quicker
  Best best;
  const int column = column_of(p.x), row = row_of(p.z);
  // Every edge that has not been met lies outside the square: at least this far from p.
  const auto apart = [&](int reach) {
    return std::min({p.x - (left_ + (column - reach) * side_), left_ + (column + reach + 1) * side_ - p.x,
                     p.z - (bottom_ + (row - reach) * side_), bottom_ + (row + reach + 1) * side_ - p.z});
  };
  bool found = false;
  for (int reach = 0; reach <= furthest && !found; ++reach) {
    look_in_square(column, row, reach, p, best);
    const double least = apart(reach);
    found = least >= 0 && best.squared <= least * least;
  }
  if (!found)
    for (const Edge& edge : edges_)
      look(edge, p, best);
  if (best.edge == nullptr)
    return {};
  const auto [a, b] = *best.edge;
  const double dx = b.x - a.x, dz = b.z - a.z, length = std::max(std::hypot(dx, dz), 1e-300);
  return {{a.x + best.share * dx, a.z + best.share * dz}, {dx / length, dz / length}, std::sqrt(best.squared)};
}

} // namespace fanwright::traced
