// What a sketch is drawn on: lines, filled paper, arrows and tags, in units of the thing drawn, and their layout in the
// sketch's box. Pens, arrow heads and tags have their size on the page, whatever the scale.
#pragma once

#include "booklet/sketch.h"

#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace fanwright::booklet {

using Shape = std::vector<drawing::Point>;

inline constexpr double thin_mm = 0.18, main_mm = 0.35, bold_mm = 0.5; // steps of ISO 128-2, rounded
inline constexpr drawing::Colour ink = {0.10, 0.10, 0.11}, mid_grey = {0.55, 0.55, 0.57}, pale = {0.91, 0.91, 0.92},
                                 white = {1, 1, 1}, accent = {0.80, 0.30, 0.06}, accent_tint = {0.99, 0.87, 0.76};

inline constexpr double tag_radius_mm = 2.0;

struct Stroke {
  double width_mm = main_mm;
  drawing::Colour colour = ink;
  std::vector<double> dash_mm = {};
};
inline const Stroke thin_line{thin_mm, ink, {}}, grey_line{thin_mm, mid_grey, {}},
    hidden_line{thin_mm, ink, {1.2, 0.8}}, score_line{main_mm, ink, {3.0, 1.0}}, bold_line{bold_mm, ink, {}};

/// The stretches of a path of moves and lines.
std::vector<Shape> stretches_of(const drawing::Path& path);

/// Bounds on the page, mm.
struct Extent {
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  void take(drawing::Point point, double around_mm);
  double width() const { return right > left ? right - left : 0; }
  double height() const { return bottom > top ? bottom - top : 0; }
};

/// A tag not yet lettered.
struct Tag {
  Part part = Part::leaf;
  drawing::Point at, target; ///< middle of the tag; what its leader points at
};

class Easel {
public:
  /// `scale`: mm on the page for one unit.
  explicit Easel(double scale) : scale_(scale) {}

  double scale() const { return scale_; }

  void fill(const Shape& shape, drawing::Colour colour);
  /// Area between an outer ring and holes.
  void fill(const std::vector<Shape>& rings, drawing::Colour colour);
  void line(const Shape& shape, const Stroke& stroke = {}, bool closed = false);
  /// Filled, then outlined: hides what was drawn before.
  void paper(const Shape& ring, drawing::Colour colour = white, const Stroke& stroke = {});
  void paper(const std::vector<Shape>& rings, drawing::Colour colour, const Stroke& stroke = {});
  /// A strip of glue.
  void glue(const Shape& convex);
  /// A line in the accent colour with a head at its last point.
  void arrow(const Shape& along, bool both_ends = false);
  /// A tag `dx_mm`, `dy_mm` on the page away from what it points at. The part's letter is given later.
  void tag(Part part, drawing::Point target, double dx_mm, double dy_mm);
  /// Figures and units only, in the middle of `at`.
  void figures(const std::string& words, drawing::Point at, double size_mm, bool bold = false);
  /// A page of line drawing with its corner at `corner`, `magnified` units for one of its mm.
  void drawn(const drawing::Page& page, drawing::Point corner, double magnified);
  /// Counts a packet drawn.
  void packet() { ++packets_; }

  const Extent& extent() const { return extent_; }
  const std::vector<drawing::Item>& items() const { return items_; }
  const std::vector<Tag>& tags() const { return tags_; } ///< on the page, mm
  int packets() const { return packets_; }

private:
  drawing::Point on_page(drawing::Point point) const { return {point.x * scale_, point.y * scale_}; }
  void add(const std::vector<Shape>& shapes, bool closed, const drawing::Pen& pen);
  void head(drawing::Point tip, drawing::Point from);

  double scale_;
  Extent extent_;
  std::vector<drawing::Item> items_;
  std::vector<Tag> tags_;
  int packets_ = 0;
};

/// One picture within a sketch.
struct Panel {
  std::function<void(Easel&)> draw;
  double magnified = 1; ///< units of this picture against those of its neighbours
  bool stands = false;  ///< its foot on the level of the highest picture's; else in the middle
};

/// The panels side by side at the largest common scale that the box allows, letters given from left to right.
Sketch side_by_side(const std::vector<Panel>& panels, double width_mm, double height_mm);

} // namespace fanwright::booklet
