#include "picture/flat_ring.h"

#include "picture/straightened.h"

#include <algorithm>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr double straight_share = 1.0 / 160; // 0.01 mm at the finest spacing, half the leaf's own chord tolerance
constexpr double inside_mm = 0.002;

leaf::Point unit(leaf::Point from, leaf::Point to) {
  const double length = std::hypot(to.x - from.x, to.z - from.z);
  return length > 0 ? leaf::Point{(to.x - from.x) / length, (to.z - from.z) / length} : leaf::Point{};
}

} // namespace

leaf::Ring evenly_spaced(const leaf::Ring& ring, double spacing_mm) {
  // Two ends that stay: the first point and the one furthest from it.
  const auto distance = [&](leaf::Point p) { return std::hypot(p.x - ring.front().x, p.z - ring.front().z); };
  const auto furthest = std::ranges::max_element(ring, {}, distance) - ring.begin();
  leaf::Ring back(ring.begin() + furthest, ring.end());
  back.push_back(ring.front());
  leaf::Ring bends = straightened(leaf::Ring(ring.begin(), ring.begin() + furthest + 1), straight_share * spacing_mm);
  const leaf::Ring way_back = straightened(back, straight_share * spacing_mm);
  bends.insert(bends.end(), way_back.begin() + 1, way_back.end());
  leaf::Ring even;
  for (std::size_t k = 0; k + 1 < bends.size(); ++k) {
    const leaf::Point a = bends[k], b = bends[k + 1];
    const int parts = std::max(1, static_cast<int>(std::ceil(std::hypot(b.x - a.x, b.z - a.z) / spacing_mm - 1e-6)));
    for (int p = 0; p < parts; ++p)
      even.push_back({a.x + (b.x - a.x) * p / parts, a.z + (b.z - a.z) * p / parts});
  }
  return even;
}

leaf::Point just_inside(const leaf::Ring& ring, std::size_t k) {
  const leaf::Point here = ring[k];
  const leaf::Point in = unit(ring[(k + ring.size() - 1) % ring.size()], here);
  const leaf::Point out = unit(here, ring[(k + 1) % ring.size()]);
  const leaf::Point inward = unit({}, {-in.z - out.z, in.x + out.x});
  return {here.x + inside_mm * inward.x, here.z + inside_mm * inward.z};
}

} // namespace fanwright::picture
