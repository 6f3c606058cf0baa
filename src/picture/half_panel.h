// The half-panel's mid-surface triangulated afresh, so that every interior edge is shared by exactly two triangles.
#pragma once

#include "opened/opened.h"
#include "picture/triangulation.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

/// Wedge frame and leaf coordinates as in opened::Mesh, mm. `edge` holds the paper's edges (outline, spine, cut-outs)
/// as pairs of points with the paper to the left in leaf coordinates (x right, z up); triangles turn the same way.
struct HalfPanel {
  std::vector<opened::Point3> points;
  std::vector<opened::Point3> normals; ///< unit, area-weighted over the triangles at each point
  std::vector<leaf::Point> flat;
  Triangles triangles;
  std::vector<std::array<int, 2>> edge;
};

/// Spacing of points that keeps all those of the solver's surface, mm.
inline constexpr double finest_spacing_mm = 1.6;

/// Rings of `panel` filled with the solver's own points, no two nearer than about a third of `spacing_mm`.
/// A sentence when the form is empty or broken, or does not belong to the panel.
std::variant<HalfPanel, std::string> half_panel(const opened::Panel& panel, const opened::Form& form,
                                                double spacing_mm = finest_spacing_mm);

} // namespace fanwright::picture
