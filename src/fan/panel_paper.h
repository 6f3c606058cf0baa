// The paper of a fan in its seat, panel by panel: where it is cut, and where each of its points lies in the round.
#pragma once

#include "fan/seat.h"
#include "leaf/outline.h"

#include <memory>
#include <vector>

namespace fanwright::fan {

class Panels;

class PanelPaper {
public:
  explicit PanelPaper(const Placed& placed);
  ~PanelPaper();
  PanelPaper(PanelPaper&&) noexcept;
  PanelPaper& operator=(PanelPaper&&) = delete;

  /// Panels from the strip's left end, x = 0.
  int count() const { return static_cast<int>(rings_.size()); }
  double depth_mm() const { return depth_mm_; }
  double area_mm2() const; ///< of all panels, flat, without flap and laps

  /// The flat paper of a panel, strip coordinates (strip.h), mm: counter-clockwise rings, several where the cut edge
  /// dips into the panel and out again below its creases' ends; crumbs below 0.01 mm2 are left out.
  const std::vector<leaf::Ring>& flat(int panel) const { return rings_[static_cast<std::size_t>(panel)]; }

  /// Ornament axes, mm, of a flat point of that panel; within 0.001 of the crease's bow of Spread::place().
  Point3 place(int panel, leaf::Point flat) const;

  /// Unit, the way the strip's front face looks.
  const Point3& facing() const { return facing_; }

private:
  std::vector<std::vector<leaf::Ring>> rings_;
  std::unique_ptr<const Panels> panels_;
  double depth_mm_ = 0;
  Point3 facing_{};
};

} // namespace fanwright::fan
