// What fans make of the figure: how large it is with them, and how it stands.
#include "fan/seat_pose.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

/// Height of the cut edge there, mm; the highest where it turns back.
double edge_height(const Strip& strip, double x) {
  double highest = 0;
  for (const auto& run : strip.edge) {
    for (std::size_t i = 0; i + 1 < run.size(); ++i) {
      const leaf::Point &a = run[i], &b = run[i + 1];
      if ((x - a.x) * (x - b.x) <= 0 && a.x != b.x) {
        highest = std::max(highest, at_x(a, b, x).z);
      }
    }
  }
  return highest;
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

void measure(const Body& body, const std::vector<PaperedFan>& fans, Figure& figure) {
  const double front_rad = front_of(body);
  const Point3 right = to_the_right(front_rad), front{std::cos(front_rad), std::sin(front_rad), 0};
  struct Extent {
    double low, high;
    void take(double value) { low = std::min(low, value), high = std::max(high, value); }
  };
  // The front is in the middle of the opening.
  const double half_rad = body.opening_deg / 2 * std::numbers::pi / 180;
  const double side = body.widest_mm * std::sin(std::min(half_rad, std::numbers::pi / 2));
  Extent wide{-side, side}, deep{std::min(0.0, body.widest_mm * std::cos(half_rad)), body.widest_mm},
      tall{0, body.top_mm};
  for (const PaperedFan& fan : fans) {
    along_fan(*fan.placed, [&](const Point3& place) {
      wide.take(dot(place, right));
      deep.take(dot(place, front));
      tall.take(place[2]);
    });
  }
  figure.width_mm = wide.high - wide.low;
  figure.depth_mm = deep.high - deep.low;
  figure.height_mm = tall.high - tall.low;
}

/// theta = atan(d / z): d from below the centre of mass to the rim of what it stands on, z its height.
Balance balance_of(const Body& body, const std::vector<PaperedFan>& fans) {
  Balance balance;
  balance.mass_g = body.mass_g;
  balance.centre = times(body.mass_g, body.mass_centre);
  for (const PaperedFan& fan : fans) {
    const FanMass mass = mass_of(*fan.placed, *fan.paper);
    balance.mass_g += mass.mass_g;
    balance.centre = plus(balance.centre, times(mass.mass_g, mass.centre));
  }
  balance.centre = times(1 / balance.mass_g, balance.centre);
  balance.reach_mm = fit::reach_of_feet(body.stands, {balance.centre[0], balance.centre[1]});
  balance.tip_deg = std::atan2(balance.reach_mm, balance.centre[2]) * 180 / std::numbers::pi;
  return balance;
}

} // namespace

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

std::vector<PaperedFan> papered(const std::vector<Placed>& fans, const paper::Paper& paper) {
  std::vector<PaperedFan> list;
  list.reserve(fans.size());
  for (const Placed& placed : fans) {
    list.push_back({&placed, &paper});
  }
  return list;
}

Figure figure_of(const Body& body, const std::vector<PaperedFan>& fans, bool stands) {
  Figure figure;
  measure(body, fans, figure);
  if (stands) {
    figure.balance = balance_of(body, fans);
  }
  return figure;
}

} // namespace fanwright::fan
