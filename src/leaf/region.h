// The paper of a half as a region with holes, for questions of touching, lying inside and clearance. Uses GEOS.
#pragma once

#include "leaf/outline.h"

#include <memory>
#include <optional>
#include <vector>

namespace fanwright::leaf {

/// Where a ring crosses or touches itself (or has no area); empty when it is simple.
std::optional<Point> self_contact(const Ring& ring);

/// Diameter of the widest circle inside a ring free of self-contact, to 0.01 mm.
double widest_circle_mm(const Ring& ring);

/// Area common to two rings as a share of the area of either (intersection over union), 0..1. Rings may touch or cross
/// themselves; what they enclose counts.
double overlap(const Ring& a, const Ring& b);

/// Paper inside `outline` and outside `holes`; every ring must be free of self-contact.
class Region {
public:
  explicit Region(const Ring& outline, const std::vector<Ring>& holes = {});
  ~Region();
  Region(const Region&) = delete;
  Region& operator=(const Region&) = delete;

  bool contains(Point point) const;

  /// Distance from a point to the nearest cut or spine, mm, wherever the point lies.
  double distance_to_boundary(Point point) const;

  /// Distance from the area inside `ring` to the nearest cut or spine, mm; 0 when they meet.
  double distance_to_boundary(const Ring& ring) const;

  /// Whether the paper stays one piece, with as many holes, when everything nearer than `inset_mm` to a cut is taken
  /// away: when it does not, some bridge of paper is narrower than twice that. Crumbs below 3 mm2 do not count.
  bool keeps_together(double inset_mm) const;

private:
  struct Geos;
  std::unique_ptr<Geos> geos_;
};

} // namespace fanwright::leaf
