// A coarser copy of a half-panel's mesh, for ornaments with so many leaves that the whole would not fit in memory.
#pragma once

#include "opened/opened.h"

#include <cstddef>
#include <vector>

namespace fanwright::picture {

/// The mesh itself when it has at most `most` triangles, otherwise its points joined within square cells of the flat
/// leaf (Rossignac and Borrel's vertex clustering). Points on the spine stay there, and those on the outer edge are
/// joined among themselves, so that the silhouette stays. `mesh.flat` and `on_edge` go with the points.
opened::Mesh coarser(const opened::Mesh& mesh, const std::vector<bool>& on_edge, std::size_t most);

} // namespace fanwright::picture
