// Asks many points of one outline: is there paper, and where is the nearest edge?
#pragma once

#include "leaf/outline.h"

#include <array>
#include <cstddef>
#include <vector>

namespace fanwright::leaf {

/// Finds an outline's edges by bands of height, so that few of them are looked at for each point. Holds a copy of the
/// outline, mm; cut-outs are not its concern.
class EdgeFinder {
public:
  explicit EdgeFinder(Ring outline);

  /// Does a point lie within the outline?
  bool holds(Point point) const;
  /// The nearest point of the outline.
  Point nearest(Point point) const;

private:
  int band_of(double z) const;
  Point nearest_on(std::size_t edge, Point point) const;

  static constexpr int bands = 64;

  Ring outline_;
  double low_, band_mm_;
  std::array<std::vector<std::size_t>, bands> edges_in_;
};

} // namespace fanwright::leaf
