// The leaf as sketches pose it: flat, hinged on its spine, lying in a pile. Units: mm of the leaf.
#pragma once

#include "booklet/sketch_easel.h"
#include "leaf/leaf.h"

#include <functional>
#include <vector>

namespace fanwright::booklet {

/// Right half with what is drawn on it.
struct DrawnLeaf {
  leaf::Ring half; ///< from the spine's foot outward and up to its top
  std::vector<leaf::Ring> cut_outs;
  std::vector<leaf::Ring> inside, between; ///< glue strips from foot to top
  std::vector<leaf::GlueRow> rows;
  double width = 0, bottom = 0, top = 0, spine_foot = 0, spine_top = 0;
  double height() const { return top - bottom; }
  double middle() const { return (top + bottom) / 2; }
  /// What tools are sized by, so that they suit small leaves and large ones.
  double measure() const { return height() > 1.4 * width ? height() : 1.4 * width; }
};

DrawnLeaf drawn_leaf(const leaf::Leaf& leaf);

/// The outer edge's place at height `z`, the farthest from the spine.
double reach_at(const DrawnLeaf& leaf, double z);

/// Where the paper that begins at (`x`, `z`) ends, going out from the spine.
double edge_beyond(const DrawnLeaf& leaf, double x, double z);
/// Height about which the half has the widest paper for a tag.
double widest_at(const DrawnLeaf& leaf);

/// Parallel projection: a viewer turned by the azimuth about the upright axis and raised by the elevation.
/// World axes: x right, y away from the viewer, z up.
struct Viewer {
  double azimuth_deg = 0, elevation_deg = 0;
  drawing::Point at(double x, double y, double z) const;
};

/// Where a point of the right half comes to lie.
using Pose = std::function<drawing::Point(leaf::Point)>;

/// Flat on the page, the spine at x = `spine_x`; `left`: mirrored to the other side of it.
Pose flat_pose(bool left = false, drawing::Point spine = {});
/// Upright, turned by `angle_deg` about the spine: 0 is to the right, 180 to the left, 270 towards the viewer.
Pose hinged_pose(const Viewer& viewer, double angle_deg);
/// Lying on a table, `above` over it. Spine on the left, or on the right when `left`.
Pose lying_pose(const Viewer& viewer, double above, bool left = false);

Shape posed(const leaf::Ring& ring, const Pose& pose);

/// Outline and cut-outs filled and outlined.
void draw_half(Easel& easel, const DrawnLeaf& leaf, const Pose& pose, drawing::Colour colour = white,
               const Stroke& stroke = {});
/// As draw_half, white where the inner face is seen and grey where the outer one is. `left`: it is the left half.
void draw_hinged(Easel& easel, const DrawnLeaf& leaf, const Pose& pose, bool left);
/// The whole leaf unfolded, inner face up, with its score.
void draw_unfolded(Easel& easel, const DrawnLeaf& leaf);
/// Folded leaves lying on each other from `above` upward, `step` apart.
void draw_pile(Easel& easel, const DrawnLeaf& leaf, const Viewer& viewer, double above, double step, int leaves,
               bool left = false);
/// Glue strips.
void draw_glue(Easel& easel, const std::vector<leaf::Ring>& strips, const Pose& pose);

/// An upright box seen by the viewer: front, right side and top.
struct Block {
  double left = 0, right = 0, front = 0, back = 0, low = 0, high = 0;
};
void draw_block(Easel& easel, const Viewer& viewer, const Block& block, drawing::Colour top = white,
                drawing::Colour front = pale, const Stroke& stroke = {});

/// Points on an arc about `middle`, angles clockwise as seen from the x axis, degrees.
Shape arc(drawing::Point middle, double radius_x, double radius_y, double from_deg, double to_deg);
/// A cubic curve as points.
Shape curve(drawing::Point from, drawing::Point control1, drawing::Point control2, drawing::Point to);

} // namespace fanwright::booklet
