#include "fan/seat.h"

#include "fan/seat_pose.h"
#include "fan/seat_remedies.h"
#include "fan/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;

Point3 reflected(const Point3& place, const Point3& across) {
  return minus(place, times(2 * dot(place, across), across));
}

/// The mirror image of a fan as a rigid motion of the mirrored strip: its frame's X is turned round, and with it the
/// spread in that frame.
Placed mirror_image(const Placed& placed, const Point3& across) {
  const auto& [x, y, z] = placed.at.axes;
  const Placement at{reflected(placed.at.origin, across),
                     {times(-1, reflected(x, across)), reflected(y, across), reflected(z, across)}};
  const double middle = placed.spread.first_side_deg() - placed.spread.spread_deg() / 2;
  return {at, Spread(placed.spread.pleats(), placed.spread.spread_deg(), 180 - middle), mirrored(placed.strip)};
}

/// Height above the fan's centre of the lowest place that overhangs it.
std::optional<double> free_height(const Body& body, const Point3& centre) {
  const double radius = std::hypot(centre[0], centre[1]);
  std::optional<double> lowest;
  for (const Swept* part : {&body.below, &body.neck, &body.head}) {
    const auto& outline = part->outline();
    for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
      const Station &a = outline[i], &b = outline[i + 1];
      if ((a.radius > radius) == (b.radius > radius)) {
        continue;
      }
      const double height = a.height + (radius - a.radius) / (b.radius - a.radius) * (b.height - a.height);
      if (height > centre[2] && (!lowest || height - centre[2] < *lowest)) {
        lowest = height - centre[2];
      }
    }
  }
  return lowest;
}

/// Free height at the highest seat, down from the neck to this one, from which the fan spreads fully.
std::optional<double> least_free_height(const Fan& fan, const Made& made, const Body& body, Seat seat, bool stands) {
  double low = seat.below_neck_mm, high = 0;
  const auto spreads = [&](double below_neck) {
    seat.below_neck_mm = below_neck;
    return Seating(fan, made, body, seat, stands).spreads();
  };
  while (low - high > tolerance::seat_height_mm) {
    const double middle = (low + high) / 2;
    (spreads(middle) ? low : high) = middle;
  }
  seat.below_neck_mm = low;
  const auto site = site_of(body, seat, stand_off_mm(made, seat, (body.caliper_mm + fan.paper.caliper_mm) / 2));
  return site ? free_height(body, site->centre) : std::nullopt;
}

void measure_clearances(const Seating& seating, const Body& body, bool stands, double caliper_mm, Seated& seated) {
  const Placed& fan = seated.fans.front();
  const Panels panels(fan.at, fan.spread, fan.strip);
  const auto clearance = [&](Part part, double gap_mm) {
    const double found =
        least_distance(panels, 0, panels.count(), seating.surroundings(), std::array{part}, tolerance::clearance_mm) -
        gap_mm;
    return std::max(0.0, found);
  };
  if (!body.neck.empty()) {
    seated.neck_clear_mm = clearance(Part::neck, seating.gap_mm());
    seated.head_clear_mm = clearance(Part::head, seating.gap_mm());
  }
  if (stands) {
    seated.table_clear_mm = clearance(Part::table, caliper_mm / 2);
  }
}

/// Mirroring in the plane of the front runs through the leaves, and their halves, the other way.
void add_mirrored(int leaves, std::vector<GluedEdge>& glued) {
  const std::size_t count = glued.size();
  for (std::size_t i = 0; i < count; ++i) {
    GluedEdge edge = glued[i];
    edge.leaf = leaves + 1 - edge.leaf;
    edge.half = 3 - edge.half;
    glued.push_back(edge);
  }
}

} // namespace

Point3 Placement::in_the_round(const Point3& in_fan_frame) const {
  Point3 place = origin;
  for (std::size_t k = 0; k < 3; ++k) {
    place = plus(place, times(in_fan_frame[k], axes[k]));
  }
  return place;
}

std::variant<Seated, Unseated> seat(const Fan& fan, const Body& body, const Seat& seat, bool stands) {
  const auto making = make(fan);
  if (const auto* refusal = std::get_if<design::Refusal>(&making)) {
    return Unseated{*refusal, refusal->sentence, {}};
  }
  const Made& made = std::get<Made>(making);
  const Seating seating(fan, made, body, seat, stands);
  const Trial trial = seating.tried();
  if (trial.fault != Fault::none) {
    return unseated(fan, body, seat, stands, trial);
  }
  Seated seated;
  seated.fans.push_back({trial.pose->at, trial.pose->spread, made.strip});
  if (seat.pair) {
    seated.fans.push_back(mirror_image(seated.fans.front(), to_the_right(trial.site->front_rad)));
  }
  const double turned = std::remainder(trial.site->front_rad - trial.site->azimuth_rad, 2 * pi) * 180 / pi;
  seated.azimuth_deg = turned < -1e-9 ? turned + 360 : turned;
  seated.taken_deg = trial.taken_deg;
  seated.most_deg = trial.most_deg;
  seated.limited_by = trial.limited_by;
  measure_clearances(seating, body, stands, fan.paper.caliper_mm, seated);
  seated.free_height_mm = free_height(body, trial.pose->at.origin);
  if (seated.free_height_mm) {
    seated.least_free_height_mm = least_free_height(fan, made, body, seat, stands);
  }
  seated.right = to_the_right(trial.site->front_rad);
  seated.glued = trial.glued;
  if (seat.pair) {
    add_mirrored(body.leaves, seated.glued);
  }
  seated.figure = figure_of(body, papered(seated.fans, fan.paper), stands);
  return seated;
}

} // namespace fanwright::fan
