// Endless patterns of one piece and the same piece turned by 180 degrees.
//
// Based on: G. Kuperberg, W. Kuperberg, "Double-lattice packings of convex bodies in the plane", Discrete &
// Computational Geometry 5 (1990), and D. Mount, "The densest double-lattice packing of a convex polygon" (1991). Here
// the pieces need not be convex: rows of pieces and rows of turned pieces are set on each other as low as they go, over
// all directions and spacings of a row.
#pragma once

#include "sheets/shape.h"

#include <vector>

namespace fanwright::sheets {

/// A move in the plane, micrometres.
struct Move {
  double x = 0, z = 0;
};

/// Pieces lie at i * along + k * up, turned ones (if any) at offset + i * along + k * up.
struct Lattice {
  Move along, up, offset;
  bool turned = false;
  double area_um2 = 0; ///< of paper for one piece
};

/// No-fit regions between the pieces, grown by the gap; micrometres.
struct LatticeRegions {
  std::vector<Loop> alike;  ///< of a piece to a piece in the same turn
  std::vector<Loop> turned; ///< of a turned piece to a piece
};

/// `piece` has its box's middle near the origin.
LatticeRegions lattice_regions(const Shape& piece, double gap_um);

/// The densest patterns over `directions` directions of a row, at most one for each, at most `wanted`; densest first.
std::vector<Lattice> lattices(const LatticeRegions& regions, int directions, int wanted);

/// Least spacing of a row of pieces in the direction `angle` (radians), and the lowest stack of rows with a spacing not
/// less than that.
double touching_spacing(const LatticeRegions& regions, double angle);
Lattice row_lattice(const LatticeRegions& regions, double angle, double spacing_um);

/// Pieces and turned ones by turns in rows, level with each other and touching; each row lies as low as it goes when
/// shifted by the share `shift` (0..1) of the pattern's length against the row before.
Lattice level_rows(const LatticeRegions& regions, double angle, double shift);

/// The densest pattern, searched to the end; the densest double lattice for convex pieces.
Lattice densest_lattice(const LatticeRegions& regions);

} // namespace fanwright::sheets
