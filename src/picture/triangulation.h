// Constrained Delaunay triangulation of places in the flat leaf, exact in whole numbers.
// Based on C. L. Lawson, Software for C1 surface interpolation (1977): insertion with edge flips, and on S. W. Sloan,
// A fast algorithm for generating constrained Delaunay triangulations, Computers & Structures 47 (1993): forced edges.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

namespace fanwright::picture {

/// A place in whole steps of any unit; both coordinates within +-most_steps.
struct Place {
  std::int64_t x = 0, z = 0;
};

/// Up to here every sign is computed exactly in 128 bits.
inline constexpr std::int64_t most_steps = std::int64_t{1} << 26;

using Triangles = std::vector<std::array<int, 3>>;

/// Counter-clockwise triangles that fill the area inside the first ring and outside the others, using all places there.
/// `rings` are closed chains of indices; every edge of theirs is an edge of the result, and interior edges are shared
/// by exactly two triangles. Empty when places coincide or are out of bounds, or when rings cross.
std::optional<Triangles> triangulated(const std::vector<Place>& places, const std::vector<std::vector<int>>& rings);

} // namespace fanwright::picture
