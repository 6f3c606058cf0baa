// Where a fan sits on the opened ornament, how far it can spread there, what it clears, and what it does to the figure.
// Plain values in and out; deterministic. Lengths mm, angles degrees; ornament axes as in opened/opened.h, Z = 0 the
// table.
//
// Directions about the axis are said as she says them: `azimuth_deg` is counted from the front of the figure towards
// its own right hand, which is clockwise seen from above: 90 is its right side, 180 its back. A closed round has its
// seam at the back; a piece that is not closed shows the middle of its opening to the front.
#pragma once

#include "fan/fan.h"
#include "fan/seat_body.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::fan {

/// A fan held along an edge is spread outward and up from there in the upright plane through the axis; of the others
/// both sides are free. One that goes round and is held at a point is glued there by the cover on its back: its plane
/// stands off by half the height of its pleats.
using design::Hold;

/// A seat in the round: lengths are those of the size.
struct Seat : design::FanSeat {
  bool pair = false; ///< and its mirror image on the other side of the front
};

/// The rigid motion that takes the fan's frame (spread.h) to the ornament's axes.
struct Placement {
  Point3 origin{};              ///< the fan's centre
  std::array<Point3, 3> axes{}; ///< where X, Y, Z of the fan's frame point; right-handed

  Point3 in_the_round(const Point3& in_fan_frame) const;
};

/// A fan in its seat. A mirror image is a strip of its own, moved rigidly like the other.
struct Placed {
  Placement at;
  Spread spread; ///< as far as it spreads there
  Strip strip;
};

enum class Part { body, neck, head, table, twin, leaves };

/// "the head", as sentences say it.
const char* named(Part part);

/// A stretch of a leaf's edge that is glued to a fan.
struct GluedEdge {
  int leaf = 0;                      ///< 1 is the first after the seam, counter-clockwise seen from above
  int half = 0;                      ///< 1 or 2, the same way round
  double from_z_mm = 0, to_z_mm = 0; ///< heights on the flat leaf
  double length_mm = 0;              ///< along the edge; 0 where the gathered end alone is glued there
  bool last_side = false;            ///< else the first side, or the gathered end
};

/// How the figure carries itself on the table.
struct Balance {
  double mass_g = 0; ///< paper of body and fans
  Point3 centre{};
  double reach_mm = 0; ///< from below the centre to the rim of what it stands on; negative: it falls over
  double tip_deg = 0;  ///< it may be tilted by so much before it falls: atan(reach / height); negative: it falls over
};

/// The ornament with fans on it, seen from the front.
struct Figure {
  double width_mm = 0, depth_mm = 0, height_mm = 0;
  std::optional<Balance> balance; ///< of pieces that stand
};

struct Seated {
  std::vector<Placed> fans;                                           ///< one, or the right one and the left one
  double azimuth_deg = 0;                                             ///< of the edge or cell that was taken
  double taken_deg = 0;                                               ///< the angle to which it spreads
  double most_deg = 0;                                                ///< to which it could be spread there
  std::optional<Part> limited_by;                                     ///< what stops it; empty: its own creases
  std::optional<double> neck_clear_mm, head_clear_mm, table_clear_mm; ///< between paper and paper, or table
  std::optional<double> free_height_mm;       ///< above the gathered end to what overhangs it; empty: nothing does
  std::optional<double> least_free_height_mm; ///< of a seat just low enough for the full spread; empty: none is needed
  std::vector<GluedEdge> glued;
  Point3 right{}; ///< unit, towards the figure's own right hand
  Figure figure;  ///< with this fan alone
};

/// One change that makes the seat work; it was tried.
struct SeatChange {
  std::string
      where; ///< key below the fan: "/seat/below_neck", "/seat/depth", "/seat/rise", "/pleats", "/length", "/outline",
             ///< "/spread", or "/seat/last_on_head" with 0
  double value = 0;             ///< what to put there; for "/outline" the reach to which it is to be scaled
  std::string sentence;         ///< "seat it 4 mm lower"
  std::vector<SeatChange> also; ///< what must be changed with it; part of the sentence
};

/// Why the fan cannot sit there. `where` is a key below the fan.
struct Unseated {
  design::Refusal why; ///< its sentence is the reason and the remedies
  std::string reason;  ///< without a full stop
  std::vector<SeatChange> remedies;
};

/// The reason and what would do.
std::string sentence_of(const std::string& reason, const std::vector<SeatChange>& remedies);

/// Seats the fan; `stands` is false for pieces that hang and meet no table.
std::variant<Seated, Unseated> seat(const Fan& fan, const Body& body, const Seat& seat, bool stands);

/// Makes a change, and those that go with it.
void apply(const SeatChange& change, Fan& fan, Seat& seat);

/// The same fan with an outer edge of another reach, its pleats left as they are.
Fan with_reach(const Fan& fan, double reach_mm);

/// Centre of mass of the fan's paper in the round, and its mass, g; the flap counts as lying on the first side.
struct FanMass {
  double mass_g = 0;
  Point3 centre{};
};
FanMass mass_of(const Placed& placed, const paper::Paper& paper);

/// A fan in the round and what it is made of; neither is owned.
struct PaperedFan {
  const Placed* placed = nullptr;
  const paper::Paper* paper = nullptr;
};
std::vector<PaperedFan> papered(const std::vector<Placed>& fans, const paper::Paper& paper);

/// Extents and balance of the body with all these fans.
Figure figure_of(const Body& body, const std::vector<PaperedFan>& fans, bool stands);

} // namespace fanwright::fan
