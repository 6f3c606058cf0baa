// Distances between outlines, and whether they share area, by a geometry library: an answer independent of the exact
// check in whole micrometres.
#pragma once

#include "leaf/outline.h"

#include <memory>

namespace fanwright::sheets {

/// Areas, not lines: polygons that overlap have distance 0, also when one lies within the other.
class Polygon {
public:
  /// `ring` has at least three points.
  explicit Polygon(const leaf::Ring& ring);
  ~Polygon();
  Polygon(Polygon&&) noexcept;
  Polygon& operator=(Polygon&&) noexcept;

  /// Least distance, in the units of the rings; 0 when the polygons touch or overlap.
  double distance(const Polygon& other) const;

  /// Whether more than edges and corners meet; right where all coordinates are small whole numbers.
  bool shares_area_with(const Polygon& other) const;

private:
  struct Geometry;
  std::unique_ptr<Geometry> geometry_;
};

} // namespace fanwright::sheets
