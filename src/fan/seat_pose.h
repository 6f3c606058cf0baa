// Where a seat puts the fan's frame, and how far the fan can spread there. Inside src/fan.
#pragma once

#include "fan/seat.h"
#include "fan/seat_room.h"

#include <optional>
#include <vector>

namespace fanwright::fan {

/// The place on the body that a seat names.
struct Site {
  double front_rad = 0;   ///< azimuth of the front, counter-clockwise from X
  double azimuth_rad = 0; ///< of the leaf edge or cell
  int wedge = 0;          ///< whose edge it is; of a cell: the second of the two that form it
  leaf::Point flat;       ///< on the leaf's edge
  Point3 centre{};        ///< of the fan
};

/// How far off the leaf's edge the fan's centre lies.
double stand_off_mm(const Made& made, const Seat& seat, double gap_mm);

/// Empty where the body has no edge at that height.
std::optional<Site> site_of(const Body& body, const Seat& seat, double stand_off_mm);

/// Azimuth of the front, counter-clockwise from X.
double front_of(const Body& body);

/// Unit, across the mirror plane of pairs, to the figure's right.
Point3 to_the_right(double front_rad);

/// A fan in its seat at some angle of spread.
struct Pose {
  Placement at;
  Spread spread;
  int laid_panels = 0; ///< from the first side, known to be clear of body and neck
};

enum class Fault { none, no_place, no_room, too_narrow, short_of_head, stopped_before_head, loose };

/// What came of trying a seat.
struct Trial {
  Fault fault = Fault::none;
  double wanted_deg = 0, own_deg = 0; ///< as drawn; as far as its creases and paper go
  double most_deg = 0, taken_deg = 0;
  std::optional<Part> limited_by;
  double held_mm = 0; ///< of the first side, or of the last when that is loose
  bool loose_last = false;
  std::optional<Site> site;
  std::optional<Pose> pose; ///< at `taken_deg`
  std::vector<int> wedges;  ///< whose edges hold the gathered end, where no side does
  std::vector<GluedEdge> glued;
};

class Seating {
public:
  /// All must outlive it.
  Seating(const Fan& fan, const Made& made, const Body& body, const Seat& seat, bool stands);

  /// Whether it works, with all that is known of it.
  Trial tried() const;
  /// Whether it works, and no more: quicker.
  bool works() const;
  /// Whether it fits in at the angle drawn; says nothing about how it is held.
  bool spreads() const;
  double gap_mm() const { return gap_mm_; }
  Surroundings surroundings() const;

private:
  std::optional<Pose> pose_at(double spread_deg) const;
  /// Least angle from straight down, outward, at which the first pleat lies on the body; empty where it cannot.
  std::optional<double> laid_rad(const Spread& spread) const;
  bool fits(double spread_deg) const;
  double most_between(double fits_deg, double fails_deg) const;
  std::optional<Part> nearest_part(double spread_deg) const;
  Trial begun() const;
  void open(Trial& trial) const;
  void hold(Trial& trial) const;
  double own_deg() const;

  const Made& made_;
  const Body& body_;
  const Seat& seat_;
  double gap_mm_ = 0;
  std::optional<Site> site_;
  std::vector<Part> parts_;
};

/// Stretches of leaf edges that a side pleat lies near enough to be glued to.
std::vector<GluedEdge> glued_edges(const Body& body, const Panels& panels, const Placement& at, bool last_side,
                                   double reach_mm);

/// Stretches that the cover on the back of a fan that goes round lies near enough to.
std::vector<GluedEdge> covered_edges(const Body& body, const Placed& disc, double reach_mm);

/// Number of the leaf and half that fill a wedge, see GluedEdge.
GluedEdge leaf_of_wedge(const Body& body, int wedge);

} // namespace fanwright::fan
