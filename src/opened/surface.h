// The solved surface: places of flat points, the outer edge, the mesh.
#pragma once

#include "opened/grid.h"
#include "opened/pieces.h"

#include <Eigen/Core>

#include <vector>

namespace fanwright::opened {

class Surface {
public:
  Surface(const Grid& grid, const Pieces& pieces, Eigen::Matrix3Xd places)
      : grid_(grid), pieces_(pieces), places_(std::move(places)) {}

  /// Wedge-frame place of a flat point of the leaf, mm; points just outside the paper are extended to.
  Eigen::Vector3d at(leaf::Point flat) const;
  Eigen::Vector3d at(const Piece& piece, double x, double zeta) const;
  /// The tangents there: the place's derivatives by x and z of the flat leaf, as columns.
  Eigen::Matrix<double, 3, 2> tangents(const Piece& piece, double x, double zeta) const;

  /// Triangles of all pieces, at most `spacing_mm` wide in the flat; Z as solved.
  Mesh mesh(double spacing_mm) const;

private:
  const Grid& grid_;
  const Pieces& pieces_;
  Eigen::Matrix3Xd places_;
};

/// The outline without its stretch on the spine, from the spine's foot to its top, points at most `spacing_mm` apart.
std::vector<leaf::Point> outer_edge(const leaf::Ring& outline, double spacing_mm);

} // namespace fanwright::opened
