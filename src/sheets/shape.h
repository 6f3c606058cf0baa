// Pieces in whole micrometres: every question about a layout has an exact answer there.
// Coordinates: x to the right, z up; outlines run counter-clockwise, holes clockwise.
#pragma once

#include "leaf/outline.h"

#include <cstdint>
#include <vector>

namespace fanwright::sheets {

/// A point or a move, micrometres.
struct Spot {
  std::int64_t x = 0, z = 0;
  friend bool operator==(Spot, Spot) = default;
};
inline Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.z + b.z}; }
inline Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.z - b.z}; }

/// Twice the signed area between two moves, square micrometres; exact below 2^31 micrometres (2 km).
inline std::int64_t cross(Spot a, Spot b) { return a.x * b.z - a.z * b.x; }
inline std::int64_t dot(Spot a, Spot b) { return a.x * b.x + a.z * b.z; }

using Loop = std::vector<Spot>;

/// A piece as it lies: the outline and what is cut out of it.
struct Shape {
  Loop outline;
  std::vector<Loop> holes;
};

/// Smallest upright box, micrometres.
struct Extent {
  std::int64_t left = 0, bottom = 0, right = 0, top = 0;
  std::int64_t width() const { return right - left; }
  std::int64_t height() const { return top - bottom; }
};

/// How a piece is laid: mirrored in its z axis first if so wished, then turned anticlockwise about its origin.
struct Stance {
  int turn_deg = 0; ///< 0, 90, 180 or 270
  bool mirrored = false;
  friend bool operator==(Stance, Stance) = default;
};

/// The ring rounded to whole micrometres, points that fall together and points on straight stretches left out, turned
/// counter-clockwise. A point moves by at most 0.71 micrometres.
Loop loop_of(const leaf::Ring& ring);

/// Outline and holes (in any direction of running), mm.
Shape shape_of(const leaf::Ring& outline, const std::vector<leaf::Ring>& holes = {});

Spot laid(Spot spot, Stance stance);
Shape laid(const Shape& shape, Stance stance);
Shape moved(Shape shape, Spot move);

Extent extent(const Loop& loop);

/// Twice the enclosed area, square micrometres; positive when counter-clockwise.
std::int64_t doubled_area(const Loop& loop);

/// Area of the paper, holes taken off, mm2.
double area_mm2(const Shape& shape);

/// At most `most_points` points (4 or more), free of crossings, and nowhere further than the returned `off_um` from the
/// loop given (Douglas and Peucker 1973); the loop itself when it is small enough, its box when nothing else serves.
struct Simpler {
  Loop loop;
  double off_um = 0;
};
Simpler simplified(const Loop& loop, std::size_t most_points);

} // namespace fanwright::sheets
