#include "picture/coarser.h"

#include <cmath>
#include <map>
#include <utility>

namespace fanwright::picture {
namespace {

opened::Mesh clustered(const opened::Mesh& mesh, double cell_mm) {
  opened::Mesh joined;
  std::map<std::pair<long, long>, int> point_of_cell;
  std::vector<int> moved;
  for (std::size_t i = 0; i < mesh.points.size(); ++i) {
    const auto flat = mesh.flat[i];
    const long column = flat.x <= 0 ? -1 : std::lround(std::floor(flat.x / cell_mm)); // -1: the spine
    const auto [place, fresh] = point_of_cell.try_emplace({column, std::lround(std::floor(flat.z / cell_mm))},
                                                          static_cast<int>(joined.points.size()));
    if (fresh) {
      joined.points.push_back(mesh.points[i]);
      joined.flat.push_back(flat);
    }
    moved.push_back(place->second);
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

opened::Mesh coarser(const opened::Mesh& mesh, std::size_t most) {
  opened::Mesh joined = mesh;
  // Each pass has about a third fewer triangles than the one before.
  for (double cell_mm = 1; joined.triangles.size() > most && cell_mm < 1e4; cell_mm *= 1.25)
    joined = clustered(mesh, cell_mm);
  return joined;
}

} // namespace fanwright::picture
