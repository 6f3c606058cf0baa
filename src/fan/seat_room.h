// How near a placed fan comes to what is round it. Inside src/fan.
//
// Method: every distance asked for changes by no more than the place moves, so a patch of a panel is nowhere nearer
// than its middle is, less the way from the middle to its farthest point. The patch that may be nearest is halved until
// that way no longer matters; what is returned is never more than the true distance.
#pragma once

#include "fan/seat.h"

#include <span>

namespace fanwright::fan {

/// A fan in the round, made ready for many questions.
class Panels {
public:
  Panels(const Placement& at, const Spread& spread, const Strip& strip);

  Point3 at(int panel, double across, double v_mm) const; ///< `across` 0..1
  /// Highest place of the cut edge on this stretch of a panel.
  double top_mm(int panel, double from, double to) const;
  int count() const { return count_; }
  double depth_mm() const { return depth_mm_; }
  double farthest_mm() const { return radius_.back(); }

private:
  static constexpr int steps = 32;     ///< along a crease; its chords miss the arc by less than 1/1000 of its bow
  static constexpr int stretches = 16; ///< across a panel

  Point3 origin_, up_; ///< the fan's centre; its front face's side
  int count_ = 0;
  double depth_mm_ = 0, length_mm_ = 0;
  std::vector<double> radius_, height_; ///< of a crease at each step; height above the plane
  std::vector<Point3> out_;             ///< of each crease, in the fan's plane
  std::vector<double> tops_;            ///< of each panel's stretches
};

/// What is round a fan.
struct Surroundings {
  const Body* body = nullptr;
  Point3 twin_side{}; ///< unit, across the mirror plane to the fan's side
  /// Distance of a place from the mid-surface, swept outline or plane of the part, mm; exact where less than `enough`,
  /// else not less than that.
  double distance(Part part, const Point3& place, double enough) const;
};

/// Least distance of the panels first .. last - 1 from any of the parts, never too large, nor too small by more than
/// the tolerance.
double least_distance(const Panels& panels, int first, int last, const Surroundings& round, std::span<const Part> parts,
                      double tolerance_mm);

/// Are they nowhere nearer than `gap_mm`? Quicker.
bool clear(const Panels& panels, int first, int last, const Surroundings& round, std::span<const Part> parts,
           double gap_mm);

} // namespace fanwright::fan
