// A coarser copy of a half-panel's mesh, for ornaments with so many leaves that the whole would not fit in memory.
#pragma once

#include "opened/opened.h"

#include <cstddef>

namespace fanwright::picture {

/// The mesh itself when it has at most `most` triangles, otherwise its points joined within square cells of the flat
/// leaf (Rossignac and Borrel's vertex clustering). Points on the spine stay there. `mesh.flat` goes with the points.
opened::Mesh coarser(const opened::Mesh& mesh, std::size_t most);

} // namespace fanwright::picture
