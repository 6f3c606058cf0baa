#include "opened/opened.h"

#include <cmath>

namespace fanwright::opened {

// A point at angle phi in wedge 0 lies at k beta + phi in an even wedge. An odd wedge is the mirror image of the one
// before it in their common wall, the half-plane at angle k beta, so there the angle is (k + 1) beta - phi.
Point3 in_wedge(const Form& form, int k, const Point3& point) {
  const auto [x, y, z] = point;
  const bool mirrored = k % 2 != 0;
  const double turn = (mirrored ? k + 1 : k) * form.wedge_rad;
  const double c = std::cos(turn), s = std::sin(turn);
  const double across = mirrored ? -y : y;
  return {x * c - across * s, x * s + across * c, z};
}

} // namespace fanwright::opened
