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

/// Height of the cut edge there, mm; the highest where it turns back.
double edge_height(const Strip& strip, double x) {
  double highest = 0;
  for (const auto& run : strip.edge) {
    for (std::size_t i = 0; i + 1 < run.size(); ++i) {
      const leaf::Point &a = run[i], &b = run[i + 1];
      if ((x - a.x) * (x - b.x) <= 0 && a.x != b.x) {
        highest = std::max(highest, a.z + (x - a.x) / (b.x - a.x) * (b.z - a.z));
      }
    }
  }
  return highest;
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
  const auto site = site_of(body, seat, (body.caliper_mm + fan.paper.caliper_mm) / 2);
  return site ? free_height(body, site->centre) : std::nullopt;
}

/// Places on the rims and along the creases of a fan.
template <typename Visit> void along_fan(const Placed& placed, const Visit& visit) {
  const Panels panels(placed.at, placed.spread, placed.strip);
  constexpr int across = 8, along = 16;
  for (int k = 0; k < panels.count(); ++k) {
    for (int i = 0; i <= across; ++i) {
      const double share = static_cast<double>(i) / across;
      const double top = panels.top_mm(k, share, share);
      for (int j = 0; j <= along; ++j) {
        visit(panels.at(k, share, top * j / along));
      }
    }
  }
}

void measure_figure(const Body& body, double front_rad, Seated& seated) {
  const Point3 right = to_the_right(front_rad), front{std::cos(front_rad), std::sin(front_rad), 0};
  struct Extent {
    double low, high;
    void take(double value) { low = std::min(low, value), high = std::max(high, value); }
  };
  Extent wide{-body.widest_mm, body.widest_mm}, deep = wide, tall{0, body.top_mm};
  for (const Placed& placed : seated.fans) {
    along_fan(placed, [&](const Point3& place) {
      wide.take(dot(place, right));
      deep.take(dot(place, front));
      tall.take(place[2]);
    });
  }
  seated.width_mm = wide.high - wide.low;
  seated.depth_mm = deep.high - deep.low;
  seated.height_mm = tall.high - tall.low;
}

/// theta = atan(d / z): d from below the centre of mass to the rim of what it stands on, z its height.
Balance balance_of(const Body& body, const std::vector<Placed>& fans, const paper::Paper& paper) {
  Balance balance;
  balance.mass_g = body.mass_g;
  balance.centre = times(body.mass_g, body.mass_centre);
  for (const Placed& placed : fans) {
    const FanMass fan = mass_of(placed, paper);
    balance.mass_g += fan.mass_g;
    balance.centre = plus(balance.centre, times(fan.mass_g, fan.centre));
  }
  balance.centre = times(1 / balance.mass_g, balance.centre);
  balance.reach_mm = fit::reach_of_feet(body.stands, {balance.centre[0], balance.centre[1]});
  balance.tip_deg = std::atan2(balance.reach_mm, balance.centre[2]) * 180 / pi;
  return balance;
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

FanMass mass_of(const Placed& placed, const paper::Paper& paper) {
  const Panels panels(placed.at, placed.spread, placed.strip);
  constexpr int across = 16, along = 16;
  double area = 0;
  Point3 moment{};
  const auto add = [&](double here, const Point3& place) {
    area += here;
    moment = plus(moment, times(here, place));
  };
  for (int k = 0; k < panels.count(); ++k) {
    for (int i = 0; i < across; ++i) {
      const double share = (i + 0.5) / across;
      const double top = edge_height(placed.strip, (k + share) * panels.depth_mm());
      for (int j = 0; j < along; ++j) {
        add(top * panels.depth_mm() / (across * along), panels.at(k, share, top * (j + 0.5) / along));
      }
    }
  }
  const double side_mm = placed.strip.turned ? placed.strip.length_mm() : 0;
  const double side = edge_height(placed.strip, side_mm);
  add(side * placed.strip.flap_mm,
      panels.at(placed.strip.turned ? panels.count() - 1 : 0, placed.strip.turned ? 1 : 0, side / 2));
  return {area * paper.grammage_gsm * 1e-6, times(1 / area, moment)};
}

std::variant<Seated, Unseated> seat(const Fan& fan, const Body& body, const Seat& seat, bool stands) {
  const auto making = make(fan);
  if (const auto* refusal = std::get_if<design::Refusal>(&making)) {
    return Unseated{*refusal, {}};
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
  seated.glued = trial.glued;
  if (seat.pair) {
    add_mirrored(body.leaves, seated.glued);
  }
  measure_figure(body, trial.site->front_rad, seated);
  if (stands) {
    seated.balance = balance_of(body, seated.fans, fan.paper);
  }
  return seated;
}

} // namespace fanwright::fan
