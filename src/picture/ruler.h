// A ruler that lies on the table, drawn to scale.
#pragma once

#include "picture/vec3.h"

#include <cstdint>
#include <vector>

namespace fanwright::picture {

class Ruler {
public:
  /// `from`: the corner at zero next to the pieces, on the table; `along` and `away`: unit, level, at right angles,
  /// `away` from the pieces. Length mm, rounded up to whole centimetres and at most 5 m.
  Ruler(Vec3 from, Vec3 along, Vec3 away, double length_mm);

  /// Share of the table's light that it sends back at a place on the table; empty where it does not lie.
  bool covers(Vec3 point) const;
  Vec3 reflectance(Vec3 point) const;

  /// The four corners, for framing.
  std::vector<Vec3> corners() const;

private:
  Vec3 from_, along_, away_;
  int width_, height_; // texels
  std::vector<std::uint8_t> ink_;
};

} // namespace fanwright::picture
