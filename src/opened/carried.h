// A solved form carried over to another leaf or wedge, as the place to start from.
#pragma once

#include "opened/alike.h"
#include "opened/equilibrium.h"

namespace fanwright::opened {

/// Are two leaves so much alike that one's form tells of the other's: as many cut-outs and rows on the same sides, and
/// nothing moved by more than tolerance::neighbour_mm?
bool is_neighbour(const Panel& a, const Panel& b);

/// Control points on another leaf's grid that make the last form there. Rows lie where the last ones lay, and what lies
/// between them is stretched to fit.
/// `alike` are its pieces that the last one has too, see alike_pieces().
Eigen::Matrix3Xd carried_to_leaf(const Equilibrium& last, const Cut& cut, const std::vector<int>& alike);

/// Carries control points from the last form's wedge and caliper into others: every point keeps its share of the angle,
/// the hub grows or shrinks by its t / beta, and what each point has sunk and come inwards against the flat leaf
/// changes with beta^2, as a gap's loss does.
void carry_into_wedge(const Equilibrium& last, double thickness_mm, double wedge_rad, const Cut& cut,
                      Eigen::Matrix3Xd& places);

/// By what the points of a form move when they are carried into a slightly wider wedge, mm per radian (3 x points).
Eigen::Matrix3Xd moves_with_wedge(const Equilibrium& form);

} // namespace fanwright::opened
