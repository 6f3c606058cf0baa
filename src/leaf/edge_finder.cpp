#include "leaf/edge_finder.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace fanwright::leaf {

EdgeFinder::EdgeFinder(Ring outline)
    : outline_(std::move(outline)), low_(std::ranges::min(outline_, {}, &Point::z).z),
      band_mm_(std::max((std::ranges::max(outline_, {}, &Point::z).z - low_) / bands, 1e-6)) {
  for (std::size_t k = 0; k < outline_.size(); ++k) {
    const double z = outline_[k].z, next = outline_[(k + 1) % outline_.size()].z;
    for (int band = band_of(std::min(z, next)); band <= band_of(std::max(z, next)); ++band)
      edges_in_[static_cast<std::size_t>(band)].push_back(k);
  }
}

int EdgeFinder::band_of(double z) const {
  return static_cast<int>(std::clamp(std::floor((z - low_) / band_mm_), 0.0, bands - 1.0));
}

// By counting the edges to the right of the point.
bool EdgeFinder::holds(Point point) const {
  bool inside = false;
  for (const std::size_t k : edges_in_[static_cast<std::size_t>(band_of(point.z))]) {
    const Point a = outline_[k], b = outline_[(k + 1) % outline_.size()];
    if ((a.z > point.z) != (b.z > point.z) && point.x < a.x + (point.z - a.z) * (b.x - a.x) / (b.z - a.z))
      inside = !inside;
  }
  return inside;
}

Point EdgeFinder::nearest_on(std::size_t edge, Point point) const {
  const Point a = outline_[edge], b = outline_[(edge + 1) % outline_.size()];
  const double dx = b.x - a.x, dz = b.z - a.z;
  const double square = std::max(dx * dx + dz * dz, 1e-12);
  const double t = std::clamp(((point.x - a.x) * dx + (point.z - a.z) * dz) / square, 0.0, 1.0);
  return {a.x + t * dx, a.z + t * dz};
}

// Band by band away from the point, until no other band can be nearer.
Point EdgeFinder::nearest(Point point) const {
  Point best = outline_.front();
  double least = std::numeric_limits<double>::infinity();
  const int middle = band_of(point.z);
  for (int away = 0; away < bands && (away - 1) * band_mm_ < least; ++away)
    for (const int band : {middle - away, middle + away})
      if (band >= 0 && band < bands)
        for (const std::size_t k : edges_in_[static_cast<std::size_t>(band)]) {
          const Point q = nearest_on(k, point);
          if (const double d = std::hypot(point.x - q.x, point.z - q.z); d < least) {
            least = d;
            best = q;
          }
        }
  return best;
}

} // namespace fanwright::leaf
