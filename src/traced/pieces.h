// How many pieces a drawing has at least, known before any of them is united.
#pragma once

#include "leaf/contour.h"

#include <cstddef>
#include <vector>

namespace fanwright::traced {

/// Number of groups of boxes none of which reaches another group; fewer where groups lie closely intertwined. Shapes in
/// different groups make different pieces. n log n.
std::size_t groups_of(std::vector<leaf::Box> boxes);

} // namespace fanwright::traced
