// The form that is left when the paper creases sharply at the edges of the glue rows.
// Based on: Boehm, Inserting new knots into B-spline curves, 1980, and the blossoming principle (Farin, Curves and
// Surfaces for CAGD, chapter on polar forms; from memory) for the exact start on the finer grid.
#pragma once

#include "opened/equilibrium.h"
#include "opened/newton.h"

#include <functional>

namespace fanwright::opened {

/// Largest surface strain t k / 2 at the rows' edges of an elastic form, dimensionless.
double row_edge_strain(const Equilibrium& elastic);

struct Creased {
  NewtonResult result;
  Eigen::Matrix3Xd places;
  Grid grid;
  Pieces pieces;
};

/// The form beside `elastic` whose paper does not resist bending within one caliper of those rows' edges where the
/// elastic form's surface strain leaves a set. `result` says whether it was found.
Creased creased(const Panel& panel, const Equilibrium& elastic, const std::function<bool()>& cancelled);

} // namespace fanwright::opened
