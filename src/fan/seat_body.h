// The opened ornament as fans meet it: its outline swept round the axis, cut into body, neck and head; its leaf edges
// and sheets where they are; what it weighs and stands on. Ornament axes as in opened/opened.h, lengths mm.
#pragma once

#include "fan/space.h"
#include "fit/standing.h"
#include "opened/opened.h"

#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace fanwright::fan {

/// A place on the outline: distance from the axis and height.
struct Station {
  double radius = 0, height = 0;
};

/// A stretch of the outline, closed to the axis and swept round it: no leaf comes out of it.
class Swept {
public:
  Swept() = default;
  explicit Swept(std::vector<Station> outline) : outline_(std::move(outline)) {}

  bool empty() const { return outline_.size() < 2; }
  const std::vector<Station>& outline() const { return outline_; }
  /// From a place at this radius and height; negative inside, infinite when empty. The nearest point of a solid of
  /// revolution lies in the same half-plane through the axis, so this is a distance in that half-plane. Told exactly
  /// where it is less than `enough`; else something that is not less than that, and sooner.
  double distance(double radius, double height, double enough = std::numeric_limits<double>::infinity()) const;
  /// Does the straight line between two places in one half-plane stay `gap_mm` away?
  bool clears(const Station& from, const Station& to, double gap_mm) const;

private:
  Station foot() const { return {0, outline_.front().height}; }
  Station top() const { return {0, outline_.back().height}; }
  bool holds(double radius, double height) const; ///< is the place inside?
  /// Calls `visit` with both ends of each stretch of the closed outline but the axis, until it returns false.
  template <typename Visit> void each_stretch(const Visit& visit) const;

  std::vector<Station> outline_; ///< from the lowest end to the highest
};

/// The half-panel of one wedge as triangles; every other half-panel is its copy.
class Sheets {
public:
  Sheets(const opened::Mesh& mesh, double wedge_rad);
  /// From a place in ornament axes to the nearest sheet, at most `most`. The nearest one lies in the place's own wedge:
  /// a mirror image is never nearer than what it is the image of.
  double distance(const Point3& place, double most) const;

private:
  std::pair<int, int> cell(double radius, double height) const;

  std::vector<Point3> points_;
  std::vector<std::array<int, 3>> triangles_;
  double wedge_rad_ = 0;
  std::map<std::pair<int, int>, std::vector<int>> triangles_in_; ///< by cells of radius and height
};

/// A point of the half-panel's outer edge: on the flat leaf, and in wedge 0.
struct LeafEdgePoint {
  leaf::Point flat;
  Point3 place{};
};

struct Body {
  Swept below, neck, head;       ///< without a neck all is `below`
  std::optional<double> neck_mm; ///< height of the narrowest place between foot and head
  double widest_mm = 0;          ///< radius
  double top_mm = 0;             ///< height
  int leaves = 0;
  double wedge_rad = 0, opening_deg = 0;
  double caliper_mm = 0;
  std::vector<LeafEdgePoint> edge; ///< from the spine's foot to its top
  std::shared_ptr<const Sheets> sheets;
  double mass_g = 0;             ///< of the paper
  Point3 mass_centre{};          ///< of the paper
  std::vector<fit::Spot> stands; ///< what it stands on, see fit/standing.h

  /// Place of a point of wedge 0 in wedge k, see opened::in_wedge.
  Point3 in_wedge(int k, const Point3& place) const;
  /// Height from which seats are measured down: the neck, or the top where there is none.
  double seats_from_mm() const { return neck_mm.value_or(top_mm); }
  /// Outermost place below the neck at this height; empty where there is none.
  std::optional<Station> at_height(double height_mm) const;
};

/// The form must have its mesh. The narrowest place, as a share of what it lies between, counts as a neck when the
/// outline widens again on both sides by 2 mm and by a twentieth of the widest radius.
Body body_of(const opened::Form& form, int leaves, const paper::Paper& paper);

} // namespace fanwright::fan
