#include "fan/seat_pose.h"

#include "fan/tolerances.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double deg = 180 / pi;

/// Panels that are laid on the body together: the first side pleat.
constexpr int laid_panels = 2;

/// Directions in which a first side may lie, from straight down, outward, and the stride in which they are tried.
constexpr double least_outward_rad = -80 / deg, most_outward_rad = 160 / deg, outward_step_rad = 10 / deg;

/// A place on the leaf's edge below the neck, its outward normal in the half-plane of radius and height.
struct EdgeSpot {
  leaf::Point flat;
  Point3 place{};
  double out = 1, up = 0;
};

std::optional<EdgeSpot> edge_spot(const Body& body, double height_mm) {
  const auto station = body.at_height(height_mm);
  if (!station) {
    return std::nullopt;
  }
  std::optional<EdgeSpot> spot;
  double off = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < body.edge.size(); ++i) {
    const auto& [from, a] = body.edge[i];
    const auto& [to, b] = body.edge[i + 1];
    const double rise = b[2] - a[2];
    if ((height_mm - a[2]) * (height_mm - b[2]) > 0 || rise == 0) {
      continue;
    }
    const double t = (height_mm - a[2]) / rise;
    const Point3 place = plus(a, times(t, minus(b, a)));
    const double here = std::abs(std::hypot(place[0], place[1]) - station->radius);
    if (here < off) {
      off = here;
      const double outward = std::hypot(b[0], b[1]) - std::hypot(a[0], a[1]);
      const double step = std::hypot(outward, rise);
      spot =
          EdgeSpot{{from.x + t * (to.x - from.x), from.z + t * (to.z - from.z)}, place, rise / step, -outward / step};
    }
  }
  return spot;
}

double turned_off(double a, double b) { return std::abs(std::remainder(a - b, 2 * pi)); }

/// In a cell: the wall, A or B, whose both sides gape most nearly at the wanted azimuth.
void take_cell(const Body& body, const EdgeSpot& spot, const Seat& seat, double wanted, Site& site) {
  const double within = std::atan2(spot.place[1], spot.place[0]); // 0: the edge lies on wall A, shut there
  const double radius = std::hypot(spot.place[0], spot.place[1]) - seat.depth_mm;
  double best = std::numeric_limits<double>::infinity();
  for (int wall = 0; wall < 2 * body.leaves; ++wall) {
    const double half_mouth = wall % 2 == 0 ? within : body.wedge_rad - within;
    const double off = turned_off(wall * body.wedge_rad, wanted);
    if (half_mouth > 0.5 * body.wedge_rad - 1e-9 && off < best - 1e-9) {
      best = off;
      site.azimuth_rad = wall * body.wedge_rad;
      site.wedge = wall;
    }
  }
  site.centre = {radius * std::cos(site.azimuth_rad), radius * std::sin(site.azimuth_rad), spot.place[2]};
}

void take_edge(const Body& body, const EdgeSpot& spot, double wanted, double stand_off_mm, Site& site) {
  double best = std::numeric_limits<double>::infinity();
  for (int k = 0; k < 2 * body.leaves; ++k) {
    const Point3 place = body.in_wedge(k, spot.place);
    const double azimuth = std::atan2(place[1], place[0]);
    if (const double off = turned_off(azimuth, wanted); off < best - 1e-9) {
      best = off;
      site.azimuth_rad = azimuth;
      site.wedge = k;
    }
  }
  const double radius = std::hypot(spot.place[0], spot.place[1]) + stand_off_mm * spot.out;
  site.centre = {radius * std::cos(site.azimuth_rad), radius * std::sin(site.azimuth_rad),
                 spot.place[2] + stand_off_mm * spot.up};
}

/// Upright plane through the axis: X outward, Y down, so that the creases go from down to outward to up, and the front
/// face looks to the front of the figure.
std::array<Point3, 3> upright(double azimuth_rad) {
  const double c = std::cos(azimuth_rad), s = std::sin(azimuth_rad);
  return {Point3{c, s, 0}, Point3{0, 0, -1}, Point3{-s, c, 0}};
}

/// X along the fan's middle, the plane turned about it.
std::array<Point3, 3> about_middle(double azimuth_rad, double rise_deg, double turn_deg) {
  const auto [out, down, across] = upright(azimuth_rad);
  const double rise = rise_deg / deg, turn = turn_deg / deg;
  const Point3 x = minus(times(std::cos(rise), out), times(std::sin(rise), down));
  const Point3 z = minus(times(std::cos(turn), across), times(std::sin(turn), cross(across, x)));
  return {x, cross(z, x), z};
}

} // namespace

double front_of(const Body& body) {
  return body.opening_deg > 360 - 1e-6 ? body.wedge_rad + pi : body.opening_deg / deg / 2;
}

Point3 to_the_right(double front_rad) { return {std::sin(front_rad), -std::cos(front_rad), 0}; }

double stand_off_mm(const Made& made, const Seat& seat, double gap_mm) {
  return seat.hold == Hold::at_point && is_disc(made.spread)
             ? gap_mm + made.spread.relief_at(0) / 2 + tolerance::cover_mm
             : gap_mm;
}

std::optional<Site> site_of(const Body& body, const Seat& seat, double stand_off_mm) {
  const auto spot = edge_spot(body, body.seats_from_mm() - seat.below_neck_mm);
  if (!spot || (seat.hold == Hold::in_cell && std::hypot(spot->place[0], spot->place[1]) <= seat.depth_mm)) {
    return std::nullopt;
  }
  Site site;
  site.flat = spot->flat;
  site.front_rad = front_of(body);
  const double wanted = site.front_rad - seat.azimuth_deg / deg;
  if (seat.hold == Hold::in_cell) {
    take_cell(body, *spot, seat, wanted, site);
  } else {
    take_edge(body, *spot, wanted, stand_off_mm, site);
  }
  return site;
}

Seating::Seating(const Fan& fan, const Made& made, const Body& body, const Seat& seat, bool stands)
    : made_(made), body_(body), seat_(seat), gap_mm_((body.caliper_mm + fan.paper.caliper_mm) / 2) {
  site_ = site_of(body, seat, stand_off_mm(made, seat, gap_mm_));
  parts_ = {seat.hold == Hold::in_cell ? Part::leaves : Part::body, Part::neck, Part::head};
  if (stands) {
    parts_.push_back(Part::table);
  }
  if (seat.pair) {
    parts_.push_back(Part::twin);
  }
}

Surroundings Seating::surroundings() const {
  const Point3 right = site_ ? to_the_right(site_->front_rad) : Point3{};
  return {&body_, times(std::sin(seat_.azimuth_deg / deg) >= 0 ? 1 : -1, right)};
}

double Seating::own_deg() const {
  return std::min(
      360.0, std::max(made_.spread.spread_deg(), largest_spread_deg(made_.spread.pleats(), tolerance::most_stretch)));
}

std::optional<Pose> Seating::pose_at(double spread_deg) const {
  const Pleats& pleats = made_.spread.pleats();
  if (seat_.hold != Hold::along_edge) {
    return Pose{{site_->centre, about_middle(site_->azimuth_rad, seat_.rise_deg, seat_.turn_deg)},
                Spread(pleats, spread_deg, 0),
                0};
  }
  // The first side lies along Y, straight down, and is turned outward from there until its pleat is clear.
  const Spread spread(pleats, spread_deg, 90 - spread_deg / 2);
  const auto outward = laid_rad(spread);
  if (!outward) {
    return std::nullopt;
  }
  const auto [out, down, across] = upright(site_->azimuth_rad);
  const double c = std::cos(*outward), s = std::sin(*outward);
  return Pose{{site_->centre, {minus(times(c, out), times(s, down)), plus(times(s, out), times(c, down)), across}},
              spread,
              laid_panels};
}

namespace {

/// A pleat that is turned in the upright plane about the fan's centre: its places in the fan's frame in rows along the
/// creases, each row followed place by place.
class Laid {
public:
  Laid(const Panels& panels, int count, double length_mm) {
    const int along = static_cast<int>(std::ceil(length_mm / tolerance::laid_along_mm));
    const int across = static_cast<int>(std::ceil(panels.depth_mm() / tolerance::laid_across_mm));
    for (int k = 0; k < count; ++k) {
      for (int i = k == 0 ? 0 : 1; i <= across; ++i) {
        const double share = static_cast<double>(i) / across, top = panels.top_mm(k, share, share);
        for (int j = 0; j < along; ++j) {
          stretches_.push_back({panels.at(k, share, top * j / along), panels.at(k, share, top * (j + 1) / along)});
        }
      }
    }
  }

  /// The least angle outward from `from_rad` at which every stretch is clear; empty where there is none.
  template <typename Clear> std::optional<double> least_rad(double from_rad, const Clear& clear) const {
    double laid = from_rad;
    for (const auto& [from, to] : stretches_) {
      if (clear(from, to, laid)) {
        continue;
      }
      double blocked = laid, clear_at = laid;
      do {
        clear_at += outward_step_rad;
        if (clear_at > most_outward_rad) {
          return std::nullopt;
        }
      } while (!clear(from, to, clear_at));
      while (clear_at - blocked > tolerance::seat_deg / deg) {
        const double middle = (blocked + clear_at) / 2;
        (clear(from, to, middle) ? clear_at : blocked) = middle;
      }
      laid = clear_at;
    }
    return laid;
  }

private:
  std::vector<std::array<Point3, 2>> stretches_;
};

} // namespace

std::optional<double> Seating::laid_rad(const Spread& spread) const {
  const Panels panels({{}, {Point3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}, spread, made_.strip);
  const double radius = std::hypot(site_->centre[0], site_->centre[1]);
  const auto station = [&](const Point3& place, double c, double s) {
    const double outer = radius + place[0] * c + place[1] * s;
    return Station{std::sqrt(outer * outer + place[2] * place[2]), site_->centre[2] - (place[1] * c - place[0] * s)};
  };
  // Seen in the half-plane through the axis, a straight line bends outward at its middle by no more than
  // L^2 / 8 times c^2 / r^3, c its distance from the axis' own plane; between two rows a round body comes up by no more
  // than their distance^2 / 8 r.
  const double off = spread.relief_at(0) / 2, least_radius = std::max(radius, off);
  const double along = tolerance::laid_along_mm, across = tolerance::laid_across_mm;
  const double missed_mm =
      along * along / 8 * off * off / (least_radius * least_radius * least_radius) + across * across / 8 / least_radius;
  const auto clear = [&](const Point3& from, const Point3& to, double outward) {
    const double c = std::cos(outward), s = std::sin(outward);
    const Station a = station(from, c, s), b = station(to, c, s);
    return body_.below.clears(a, b, gap_mm_ + missed_mm) && body_.neck.clears(a, b, gap_mm_ + missed_mm);
  };
  return Laid(panels, laid_panels, spread.pleats().length_mm).least_rad(least_outward_rad, clear);
}

bool Seating::fits(double spread_deg) const {
  const auto pose = pose_at(spread_deg);
  if (!pose) {
    return false;
  }
  const Panels panels(pose->at, pose->spread, made_.strip);
  std::vector<Part> apart; // all but what the first pleat was laid on
  std::ranges::copy_if(parts_, std::back_inserter(apart), [](Part p) { return p != Part::body && p != Part::neck; });
  const Surroundings round = surroundings();
  return clear(panels, 0, pose->laid_panels, round, apart, gap_mm_) &&
         clear(panels, pose->laid_panels, panels.count(), round, parts_, gap_mm_);
}

bool Seating::spreads() const { return site_ && fits(made_.spread.spread_deg()); }

double Seating::most_between(double fits_deg, double fails_deg) const {
  while (fails_deg - fits_deg > tolerance::seat_deg) {
    const double middle = (fits_deg + fails_deg) / 2;
    (fits(middle) ? fits_deg : fails_deg) = middle;
  }
  return fits_deg;
}

std::optional<Part> Seating::nearest_part(double spread_deg) const {
  const auto pose = pose_at(spread_deg);
  if (!pose) {
    return Part::body;
  }
  const Panels panels(pose->at, pose->spread, made_.strip);
  std::optional<Part> nearest;
  double least = std::numeric_limits<double>::infinity();
  for (const Part part : parts_) {
    const double here =
        least_distance(panels, 0, panels.count(), surroundings(), std::array{part}, tolerance::named_mm);
    if (here < least) {
      least = here;
      nearest = part;
    }
  }
  return nearest;
}

Trial Seating::begun() const {
  Trial trial;
  trial.site = site_;
  trial.wanted_deg = made_.spread.spread_deg();
  trial.own_deg = own_deg();
  trial.fault = site_ ? Fault::none : Fault::no_place;
  return trial;
}

bool Seating::works() const {
  Trial trial = begun();
  if (!site_ || !fits(trial.wanted_deg)) {
    return false;
  }
  trial.most_deg = trial.wanted_deg;
  if (seat_.last_on_head) {
    open(trial);
  }
  hold(trial);
  return trial.fault == Fault::none;
}

/// From the wanted angle, at which it fits, as far as it goes.
void Seating::open(Trial& trial) const {
  if (fits(trial.own_deg)) {
    trial.most_deg = trial.own_deg;
  } else {
    trial.most_deg = most_between(trial.wanted_deg, trial.own_deg);
    trial.limited_by = nearest_part(std::min(trial.most_deg + 0.5, trial.own_deg));
  }
}

Trial Seating::tried() const {
  Trial trial = begun();
  if (!site_) {
    return trial;
  }
  if (fits(trial.wanted_deg)) {
    open(trial);
    hold(trial);
    return trial;
  }
  const double least = std::min(tolerance::least_spread_deg, trial.wanted_deg / 2);
  const bool room = fits(least);
  trial.most_deg = room ? most_between(least, trial.wanted_deg) : 0;
  trial.limited_by = nearest_part(room ? std::min(trial.most_deg + 0.5, trial.wanted_deg) : least);
  trial.fault = room ? Fault::too_narrow : Fault::no_room;
  return trial;
}

/// Takes the angle and finds what holds the sides.
void Seating::hold(Trial& trial) const {
  trial.taken_deg = seat_.last_on_head ? trial.most_deg : std::min(trial.most_deg, trial.wanted_deg);
  trial.pose = pose_at(trial.taken_deg);
  if (seat_.hold == Hold::at_point && is_disc(made_.spread)) {
    trial.glued =
        covered_edges(body_, {trial.pose->at, trial.pose->spread, made_.strip}, gap_mm_ + tolerance::glue_reach_mm);
  }
  if (seat_.hold != Hold::along_edge && trial.glued.empty()) {
    const auto add = [&](int wedge) {
      GluedEdge edge = leaf_of_wedge(body_, wedge);
      edge.from_z_mm = edge.to_z_mm = site_->flat.z;
      trial.glued.push_back(edge);
    };
    add(site_->wedge);
    if (seat_.hold == Hold::in_cell) {
      add((site_->wedge + 2 * body_.leaves - 1) % (2 * body_.leaves));
    }
  }
  if (seat_.hold != Hold::along_edge) {
    return;
  }
  if (seat_.last_on_head && trial.limited_by != Part::head && trial.limited_by != Part::neck) {
    trial.fault = trial.limited_by ? Fault::stopped_before_head : Fault::short_of_head;
    return;
  }
  const Panels panels(trial.pose->at, trial.pose->spread, made_.strip);
  const auto lies = [&](bool last) {
    auto edges = glued_edges(body_, panels, trial.pose->at, last, gap_mm_ + tolerance::glue_reach_mm);
    double longest = 0;
    for (const GluedEdge& edge : edges) {
      longest = std::max(longest, edge.length_mm);
    }
    trial.glued.insert(trial.glued.end(), edges.begin(), edges.end());
    return longest;
  };
  trial.held_mm = lies(false);
  if (trial.held_mm < tolerance::least_hold_share * panels.top_mm(0, 0, 1)) {
    trial.fault = Fault::loose;
  } else if (seat_.last_on_head) {
    if (const double last = lies(true); last < tolerance::least_touch_mm) {
      trial.held_mm = last;
      trial.loose_last = true;
      trial.fault = Fault::loose;
    }
  }
}

} // namespace fanwright::fan
