#include "picture/opened_place.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace fanwright::picture {
namespace {

constexpr double cell_mm = 2; // a little more than the solver's triangles are wide

/// A place in a triangle as shares of its corners, and how far it is from the place asked for, squared.
struct Nearest {
  std::array<double, 3> shares{};
  double off = std::numeric_limits<double>::infinity();
};

double cross(leaf::Point o, leaf::Point a, leaf::Point b) {
  return (a.x - o.x) * (b.z - o.z) - (a.z - o.z) * (b.x - o.x);
}

Nearest nearest_in(const std::array<leaf::Point, 3>& corner, leaf::Point p) {
  const double area = cross(corner[0], corner[1], corner[2]);
  if (std::abs(area) > 1e-9) { // mm2: below it the triangle is a line
    const double b = cross(corner[0], p, corner[2]) / area, c = cross(corner[0], corner[1], p) / area;
    if (b >= 0 && c >= 0 && b + c <= 1)
      return {{1 - b - c, b, c}, 0};
  }
  Nearest best;
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t j = (i + 1) % 3;
    const double dx = corner[j].x - corner[i].x, dz = corner[j].z - corner[i].z;
    const double length = dx * dx + dz * dz;
    const double t =
        length > 0 ? std::clamp(((p.x - corner[i].x) * dx + (p.z - corner[i].z) * dz) / length, 0.0, 1.0) : 0.0;
    const double ex = corner[i].x + t * dx - p.x, ez = corner[i].z + t * dz - p.z;
    if (const double off = ex * ex + ez * ez; off < best.off) {
      best = {{}, off};
      best.shares[i] = 1 - t;
      best.shares[j] = t;
    }
  }
  return best;
}

} // namespace

OpenedPlace::OpenedPlace(const opened::Mesh& mesh) : mesh_(mesh) {
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    std::array<leaf::Point, 3> corner;
    for (std::size_t c = 0; c < 3; ++c)
      corner[c] = mesh.flat[static_cast<std::size_t>(mesh.triangles[t][c])];
    const auto [x0, x1] = std::minmax({corner[0].x, corner[1].x, corner[2].x});
    const auto [z0, z1] = std::minmax({corner[0].z, corner[1].z, corner[2].z});
    const auto low = cell({x0, z0}), high = cell({x1, z1});
    for (long i = low.first; i <= high.first; ++i)
      for (long j = low.second; j <= high.second; ++j)
        triangles_in_[{i, j}].push_back(static_cast<int>(t));
  }
}

std::pair<long, long> OpenedPlace::cell(leaf::Point flat) const {
  return {std::lround(std::floor(flat.x / cell_mm)), std::lround(std::floor(flat.z / cell_mm))};
}

opened::Point3 OpenedPlace::at(leaf::Point flat) const {
  const auto [column, row] = cell(flat);
  Nearest best;
  std::size_t found = 0;
  const auto look = [&](const std::vector<int>& triangles) {
    for (const int t : triangles) {
      std::array<leaf::Point, 3> corner;
      for (std::size_t c = 0; c < 3; ++c)
        corner[c] = mesh_.flat[static_cast<std::size_t>(mesh_.triangles[static_cast<std::size_t>(t)][c])];
      if (const Nearest here = nearest_in(corner, flat); here.off < best.off) {
        best = here;
        found = static_cast<std::size_t>(t);
      }
    }
  };
  for (long i = column - 1; i <= column + 1; ++i)
    for (long j = row - 1; j <= row + 1; ++j)
      if (const auto here = triangles_in_.find({i, j}); here != triangles_in_.end())
        look(here->second);
  if (!std::isfinite(best.off)) // far off the paper
    for (const auto& [place, triangles] : triangles_in_)
      look(triangles);
  opened::Point3 place{0, 0, 0};
  for (std::size_t c = 0; c < 3; ++c)
    for (std::size_t k = 0; k < 3; ++k)
      place[k] += best.shares[c] * mesh_.points[static_cast<std::size_t>(mesh_.triangles[found][c])][k];
  return place;
}

} // namespace fanwright::picture
