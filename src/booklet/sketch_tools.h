// Tools and things of the table, drawn plainly. Lengths in the easel's units; angles in degrees, clockwise as seen,
// from the tip towards the handle: 0 is a handle to the right of the tip, 270 one above it.
#pragma once

#include "booklet/sketch_easel.h"
#include "booklet/sketch_leaf.h"

namespace fanwright::booklet {

/// A tool lying on the page: its tip, which way its handle points, and its length.
struct Held {
  drawing::Point tip;
  double angle_deg = 0;
  double length = 100;
  /// A point of the tool: `along` and `aside` as shares of its length.
  drawing::Point at(double along, double aside = 0) const;
};

void draw_knife(Easel& easel, const Held& held);
void draw_bone_folder(Easel& easel, const Held& held);
void draw_glue_bottle(Easel& easel, const Held& held);
void draw_blunt_blade(Easel& easel, const Held& held);
void draw_brush(Easel& easel, const Held& held);
void draw_dauber(Easel& easel, const Held& held);
/// A peg whose jaws close on the tip.
void draw_clip(Easel& easel, const Held& held);
/// A can of clear sealer standing upright, its cone of spray towards the left. `foot` is the middle of its base.
void draw_spray(Easel& easel, drawing::Point foot, double height);
/// A ruler along the page's y axis, its working edge at x = `edge.x`, lying to the left of it.
void draw_ruler(Easel& easel, drawing::Point edge, double length, double width);
/// A weight standing on a table at height `above`, 2 to 5 kg written on it.
void draw_weight(Easel& easel, const Viewer& viewer, drawing::Point middle, double above, double radius);
/// A clock with minutes written under it.
void draw_clock(Easel& easel, drawing::Point middle, double radius, double minutes);
/// A sun struck through.
void draw_no_sun(Easel& easel, drawing::Point middle, double radius);
/// A double arrow with fibres beside it: the grain.
void draw_grain(Easel& easel, drawing::Point middle, double length, bool upright);

} // namespace fanwright::booklet
