#include "picture/coarser.h"

#include <cassert>
#include <cmath>
#include <map>
#include <tuple>

namespace fanwright::picture {
namespace {

// Points that are joined: on the spine (0), on the outer edge (1) or elsewhere (2), and in one cell.
using Cell = std::tuple<int, long, long>;

Cell cell_of(leaf::Point flat, bool on_edge, double cell_mm) {
  const auto number = [&](double length) { return std::lround(std::floor(length / cell_mm)); };
  if (flat.x <= 0)
    return {0, 0, number(flat.z)};
  return {on_edge ? 1 : 2, number(flat.x), number(flat.z)};
}

opened::Mesh clustered(const opened::Mesh& mesh, const std::vector<bool>& on_edge, double cell_mm) {
  opened::Mesh joined;
  std::map<Cell, int> point_of_cell;
  std::vector<int> moved, members;
  for (std::size_t i = 0; i < mesh.points.size(); ++i) {
    const auto cell = cell_of(mesh.flat[i], on_edge[i], cell_mm);
    const auto [place, fresh] = point_of_cell.try_emplace(cell, static_cast<int>(joined.points.size()));
    const auto at = static_cast<std::size_t>(place->second);
    moved.push_back(place->second);
    if (fresh) {
      joined.points.push_back(mesh.points[i]);
      joined.flat.push_back(mesh.flat[i]);
      members.push_back(1);
      continue;
    }
    const double share = 1.0 / ++members[at]; // running mean
    for (std::size_t c = 0; c < 3; ++c)
      joined.points[at][c] += (mesh.points[i][c] - joined.points[at][c]) * share;
    joined.flat[at].x += (mesh.flat[i].x - joined.flat[at].x) * share;
    joined.flat[at].z += (mesh.flat[i].z - joined.flat[at].z) * share;
  }
  for (const auto& triangle : mesh.triangles) {
    std::array<int, 3> corners{};
    for (std::size_t c = 0; c < 3; ++c)
      corners[c] = moved[static_cast<std::size_t>(triangle[c])];
    if (corners[0] != corners[1] && corners[1] != corners[2] && corners[2] != corners[0])
      joined.triangles.push_back(corners);
  }
  return joined;
}

} // namespace

opened::Mesh coarser(const opened::Mesh& mesh, const std::vector<bool>& on_edge, std::size_t most) {
  assert(on_edge.size() == mesh.points.size());
  opened::Mesh joined = mesh;
  // Each pass has about a third fewer triangles than the one before.
  for (double cell_mm = 1; joined.triangles.size() > most && cell_mm < 1e4; cell_mm *= 1.25)
    joined = clustered(mesh, on_edge, cell_mm);
  return joined;
}

} // namespace fanwright::picture
