#include "opened/alike.h"

namespace fanwright::opened {
namespace {

/// Of each cell the one of `before` with the same splines; -1 where there is none.
std::vector<int> alike_cells(const Spline& now, const Spline& before) {
  std::vector<int> alike(static_cast<std::size_t>(now.cells()), -1);
  for (int cell = 0; cell < now.cells(); ++cell) {
    const int other = before.cell_of(0.5 * (now.line(cell) + now.line(cell + 1)));
    if (now.has_same_cell(cell, before, other)) {
      alike[static_cast<std::size_t>(cell)] = other;
    }
  }
  return alike;
}

} // namespace

std::vector<int> alike_pieces(const Cut& now, const Cut& before) {
  const std::vector<int> across = alike_cells(now.grid.across(), before.grid.across());
  const std::vector<int> up = alike_cells(now.grid.up(), before.grid.up());
  std::vector<bool> same_slope(up.size());
  for (std::size_t j = 0; j < up.size(); ++j) {
    const double middle = 0.5 * (now.grid.up().line(static_cast<int>(j)) + now.grid.up().line(static_cast<int>(j) + 1));
    same_slope[j] = now.grid.slopes_alike(before.grid, middle);
  }
  std::vector<int> alike(now.pieces.pieces.size(), -1);
  for (std::size_t p = 0; p < alike.size(); ++p) {
    const Piece& piece = now.pieces.pieces[p];
    const int i = across[static_cast<std::size_t>(piece.i)];
    const int j = up[static_cast<std::size_t>(piece.j)];
    if (i < 0 || j < 0 || !same_slope[static_cast<std::size_t>(piece.j)]) {
      continue;
    }
    const std::size_t cell = static_cast<std::size_t>(i + before.grid.cells_across() * j);
    for (int q = before.pieces.first_of_cell[cell]; q < before.pieces.first_of_cell[cell + 1]; ++q) {
      if (before.pieces.pieces[static_cast<std::size_t>(q)].paper == piece.paper) {
        alike[p] = q;
      }
    }
  }
  return alike;
}

} // namespace fanwright::opened
