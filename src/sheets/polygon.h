// A polygon for distance questions, on GEOS.
#pragma once

#include "leaf/outline.h"

#include <memory>

namespace fanwright::sheets {

struct Box {
  double left = 0, bottom = 0, right = 0, top = 0; ///< mm
  double width() const { return right - left; }
  double height() const { return top - bottom; }
};

Box box_of(const leaf::Ring& ring);

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
