// Distances between outlines by a geometry library, in mm as the maker gave them: an answer independent of the exact
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

  /// Least distance, mm; 0 when the polygons touch or overlap.
  double distance(const Polygon& other) const;

private:
  struct Geometry;
  std::unique_ptr<Geometry> geometry_;
};

} // namespace fanwright::sheets
