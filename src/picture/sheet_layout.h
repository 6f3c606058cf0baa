// Flat paper laid out in points and triangulated so that every interior edge is shared by exactly two triangles.
#pragma once

#include "picture/half_panel.h"

#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace fanwright::picture {

class SheetLayout {
public:
  /// `spacing_mm` between neighbouring points; those in the paper keep a third of it from others and from its edges.
  /// Flat places are held against `origin`, from which none may lie further than 6 m.
  explicit SheetLayout(double spacing_mm, leaf::Point origin = {});

  /// A closed line of the paper's edge, flat, and where its points come to lie; the outline first, then cut-outs.
  void add_ring(const leaf::Ring& ring, const std::vector<opened::Point3>& places);

  /// A point in the paper; left out where others are too near. Points off the paper do no harm.
  void add(leaf::Point flat, const opened::Point3& place);

  /// With edges and normals. Empty when rings touch or cross.
  std::optional<HalfPanel> filled() const;

private:
  long column(double x) const;
  void take(leaf::Point a, leaf::Point b);
  bool clear(leaf::Point p) const;
  HalfPanel gathered(Triangles triangles) const;

  double clearance_ = 1;
  leaf::Point origin_;
  std::vector<leaf::Point> flat_;
  std::vector<opened::Point3> places_;
  std::vector<std::vector<int>> rings_; ///< of indices
  /// Straight pieces, or single points, by the square cells that they and their surroundings meet.
  std::map<std::pair<long, long>, std::vector<std::pair<leaf::Point, leaf::Point>>> taken_;
};

} // namespace fanwright::picture
