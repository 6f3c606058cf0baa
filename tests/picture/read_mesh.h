// Readers for meshes in tests: closedness, volume, and a binary STL read back from its bytes.
#pragma once

#include "picture/solid.h"

#include <cmath>
#include <cstring>
#include <map>
#include <string>

namespace fanwright::picture::sample {

/// Directed edges that are not used exactly once, or whose opposite is not: 0 for a closed, consistently turned
/// surface.
inline int open_edges(const Triangles& triangles) {
  std::map<std::array<int, 2>, int> used;
  for (const auto& t : triangles)
    for (std::size_t c = 0; c < 3; ++c)
      ++used[{t[c], t[(c + 1) % 3]}];
  int faults = 0;
  for (const auto& [edge, times] : used) {
    const auto back = used.find({edge[1], edge[0]});
    if (times != 1 || back == used.end() || back->second != 1)
      ++faults;
  }
  return faults;
}

inline double triple(const opened::Point3& a, const opened::Point3& b, const opened::Point3& c) {
  return a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
}

/// Divergence theorem: a sixth of the triple products, positive when triangles turn outward.
inline double volume(const Solid& solid) {
  double sum = 0;
  for (const auto& t : solid.triangles)
    sum += triple(solid.points[static_cast<std::size_t>(t[0])], solid.points[static_cast<std::size_t>(t[1])],
                  solid.points[static_cast<std::size_t>(t[2])]);
  return sum / 6;
}

inline double ring_area(const leaf::Ring& ring) {
  double sum = 0;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const auto& a = ring[k];
    const auto& b = ring[(k + 1) % ring.size()];
    sum += a.x * b.z - b.x * a.z;
  }
  return sum / 2;
}

/// A binary STL as one solid whose points are joined where all their bits agree. Little-endian machines only.
inline Solid read_stl(const std::string& bytes) {
  Solid solid;
  std::map<std::array<float, 3>, int> known;
  std::uint32_t count = 0;
  std::memcpy(&count, bytes.data() + 80, 4);
  for (std::size_t t = 0; t < count; ++t) {
    std::array<float, 12> numbers{};
    std::memcpy(numbers.data(), bytes.data() + 84 + 50 * t, 48);
    std::array<int, 3> corners{};
    for (std::size_t c = 0; c < 3; ++c) {
      const std::array<float, 3> p{numbers[3 + 3 * c], numbers[4 + 3 * c], numbers[5 + 3 * c]};
      const auto [place, fresh] = known.try_emplace(p, static_cast<int>(solid.points.size()));
      if (fresh)
        solid.points.push_back({p[0], p[1], p[2]});
      corners[c] = place->second;
    }
    solid.triangles.push_back(corners);
  }
  return solid;
}

} // namespace fanwright::picture::sample
