// The paper of an opened ornament as closed solids with thickness: one for each half-panel, all alike but for place and
// hand. What the mesh files are written from.
#pragma once

#include "picture/fan_paper.h"
#include "picture/half_panel.h"

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::picture {

/// Triangles turn counter-clockwise seen from outside; every edge is used once in each direction.
struct Solid {
  std::vector<opened::Point3> points; ///< mm
  Triangles triangles;
};

/// The half-panel made thick: half of `thickness_mm` to either side along the normals, walls along the paper's edges.
/// Points n..2n-1 lie opposite points 0..n-1.
Solid thickened(const HalfPanel& half, double thickness_mm);

/// The whole ornament. Axis Z up, its lowest point at Z = 0, mm.
struct Body {
  HalfPanel half; ///< of wedge 0
  double thickness_mm = 0;
  double wedge_rad = 0;
  int half_panels = 0; ///< twice the leaves
  std::string title;
  std::string colour; ///< sRGB #rrggbb
  std::vector<FanPaper> fans{};
};

/// Largest mesh written, counted over all half-panels; about 100 MB as STL.
inline constexpr std::size_t most_mesh_triangles = 2'000'000;

/// All leaves of the opened panel, and `fans` in their seats on the form. When finest spacing would give more than
/// `most` triangles, points of the leaves are set wider. A sentence when there is no surface, no thickness, no colour,
/// or too many leaves even then.
std::variant<Body, std::string> body_of(const opened::Panel& panel, const opened::Form& form, const std::string& title,
                                        const std::string& colour, std::size_t most = most_mesh_triangles,
                                        std::vector<FanPaper> fans = {});

/// The panels of a fan as closed solids in one; neighbours overlap along their crease by about half a caliper.
Solid thickened(const FanPaper& fan);

/// The solid in wedge k. Odd wedges hold mirror images, with their triangles turned round so that they stay closed
/// and facing outward.
Solid in_wedge(const Body& body, const Solid& solid, int k);

/// Angle by which the solid of wedge 0 (k even), or its mirror image in Y = 0 (k odd), is turned about Z to lie in
/// wedge k, radians.
double turn_rad(const Body& body, int k);

/// Mirror image in Y = 0, still closed and facing outward.
Solid mirrored(Solid solid);

} // namespace fanwright::picture
