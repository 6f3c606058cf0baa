#include "fan/fan.h"

#include "fan/drawn.h"
#include "fan/pleats.h"
#include "fan/tolerances.h"
#include "leaf/contour.h"
#include "leaf/region.h"
#include "leaf/sentence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace fanwright::fan {
namespace {

using design::Refusal;
using leaf::in_mm;
using leaf::Point;

/// What is wanted of the fan once spread, whichever way it was given.
struct Wanted {
  double spread_deg = 360, middle_deg = 90;
  double length_mm = 0;            ///< of a straight strip
  std::optional<DrawnPolar> drawn; ///< else
  double reach_mm() const { return drawn ? drawn->reach_mm : length_mm; }
};

/// A strip of so many panels for what is wanted, or why not.
struct Trial {
  enum class Fault { none, cannot_reach, stretched } fault = Fault::none;
  Pleats pleats;
  double stretch = 0;
};

std::optional<Refusal> outside(double value, double low, double high, const char* key, const char* what) {
  if (value >= low && value <= high) {
    return std::nullopt;
  }
  return Refusal{key,
                 fmt::format("Found {} for {}, but it must be {} to {}.", in_mm(value), what, in_mm(low), in_mm(high))};
}

std::optional<Refusal> out_of_range(const Fan& fan) {
  if (fan.pleats < tolerance::fewest_pleats || fan.pleats > tolerance::most_pleats) {
    return Refusal{"/pleats", fmt::format("Found {} pleats, but a fan has {} to {}.", fan.pleats,
                                          tolerance::fewest_pleats, tolerance::most_pleats)};
  }
  if (auto refusal = outside(fan.depth_mm, tolerance::least_depth_mm, tolerance::most_depth_mm, "/depth",
                             "the depth of the pleats")) {
    return refusal;
  }
  if (auto refusal = outside(fan.flap_mm.value_or(0), 0, fan.depth_mm, "/flap", "the flap's width")) {
    return refusal;
  }
  const double widest_lap = fan.depth_mm - 2 * tolerance::lap_clearance_mm;
  if (fan.lap_mm && widest_lap >= tolerance::shortest_lap_mm) {
    return outside(*fan.lap_mm, tolerance::shortest_lap_mm, widest_lap, "/lap",
                   "the lap of joined strips, which lies between two creases,");
  }
  return std::nullopt;
}

std::variant<Wanted, Refusal> wanted_of(const Fan& fan) {
  if (const auto* straight = std::get_if<StraightEdge>(&fan.edge)) {
    if (auto refusal = outside(straight->length_mm, tolerance::least_length_mm, tolerance::most_length_mm, "/length",
                               "the length of the pleats")) {
      return *refusal;
    }
    if (!(straight->spread_deg >= tolerance::least_spread_deg && straight->spread_deg <= tolerance::most_spread_deg)) {
      return Refusal{"/spread",
                     fmt::format("Found a spread of {:g} degrees, but a fan is spread {:g} to {:g}.",
                                 straight->spread_deg, tolerance::least_spread_deg, tolerance::most_spread_deg)};
    }
    return Wanted{straight->spread_deg, 90, straight->length_mm, std::nullopt};
  }
  auto drawn = about_centre(std::get<DrawnEdge>(fan.edge).path);
  if (auto* refusal = std::get_if<Refusal>(&drawn)) {
    return std::move(*refusal);
  }
  auto& polar = std::get<DrawnPolar>(drawn);
  if (polar.reach_mm > tolerance::most_length_mm) {
    return *outside(polar.reach_mm, tolerance::least_length_mm, tolerance::most_length_mm, "/outline",
                    "the outline's reach from the fan's centre");
  }
  return Wanted{polar.spread_deg, polar.first_side_deg - polar.spread_deg / 2, 0, std::move(polar)};
}

/// Length of the longest crease that what is wanted takes; empty where the panels lie flat before.
std::optional<double> length_of(const Wanted& wanted, Pleats pleats) {
  if (!wanted.drawn) {
    pleats.length_mm = wanted.length_mm;
    return largest_spread_deg(pleats) >= wanted.spread_deg ? std::optional(wanted.length_mm) : std::nullopt;
  }
  const Spread spread(pleats, wanted.spread_deg);
  double longest = 0;
  for (const auto& run : wanted.drawn->runs) {
    for (const Polar& point : run) {
      const auto flat = spread.flat(point.distance_mm, std::clamp(point.turned_rad, 0.0, spread.spread_rad()));
      if (!flat) {
        return std::nullopt;
      }
      longest = std::max(longest, flat->z);
    }
  }
  return longest;
}

Trial tried(const Fan& fan, const Wanted& wanted, int pleats, double depth_mm) {
  Trial trial;
  trial.pleats.depth_mm = depth_mm;
  trial.pleats.panels = 2 * pleats;
  trial.pleats.inner_radius_mm = fan.inner_radius_mm.value_or(
      packed_radius_mm(2 * pleats, fan.paper.caliper_mm, wanted.spread_deg, tolerance::looseness));
  const auto length = length_of(wanted, trial.pleats);
  if (!length) {
    trial.fault = Trial::Fault::cannot_reach;
    return trial;
  }
  trial.pleats.length_mm = *length;
  trial.stretch = Spread(trial.pleats, wanted.spread_deg).stretch();
  if (trial.stretch > tolerance::most_stretch) {
    trial.fault = Trial::Fault::stretched;
  }
  return trial;
}

/// The nearest count of pleats above the fan's with which it works, or the nearest depth.
std::string remedy(const Fan& fan, const Wanted& wanted) {
  for (int pleats = fan.pleats + 1; pleats <= tolerance::most_pleats; ++pleats) {
    if (tried(fan, wanted, pleats, fan.depth_mm).fault == Trial::Fault::none) {
      return fmt::format("use {} pleats ({} panels)", pleats, 2 * pleats);
    }
  }
  for (double depth = std::ceil(fan.depth_mm + 0.5); depth <= tolerance::most_depth_mm; depth += 0.5) {
    if (tried(fan, wanted, fan.pleats, depth).fault == Trial::Fault::none) {
      return fmt::format("make them {} deep", in_mm(depth));
    }
  }
  return "spread it less or make it smaller";
}

Refusal too_few(const Fan& fan, const Wanted& wanted, const Trial& trial) {
  const std::string pleats = fmt::format("{} pleats {} deep", fan.pleats, in_mm(fan.depth_mm));
  const std::string aim =
      wanted.spread_deg > 360 - 1e-6 ? "close the disc" : fmt::format("spread to {:.0f} degrees", wanted.spread_deg);
  if (trial.fault == Trial::Fault::stretched) {
    return {"/pleats",
            fmt::format("{} can only {} if the paper stretches by {:.1f} % along their creases, and it bears "
                        "{:.1f} %; {}.",
                        pleats, aim, trial.stretch * 100, tolerance::most_stretch * 100, remedy(fan, wanted))};
  }
  return {"/pleats", fmt::format("{} cannot {} at a reach of {}: they lie flat before; {}.", pleats, aim,
                                 in_mm(wanted.reach_mm()), remedy(fan, wanted))};
}

/// Room that the gathered end must have: the packed paper itself.
std::optional<Refusal> too_tight(const Fan& fan, const Wanted& wanted) {
  const double packed = packed_radius_mm(2 * fan.pleats, fan.paper.caliper_mm, wanted.spread_deg, 1);
  const double most = std::min(wanted.reach_mm() / 2, fan.depth_mm * 2);
  const double radius = fan.inner_radius_mm.value_or(packed * tolerance::looseness);
  if (radius < packed) {
    return Refusal{"/inner_radius",
                   fmt::format("The gathered end cannot be {} from the centre: {} panels of this paper pack to {:.1f} "
                               "mm; leave \"inner_radius\" out or give that much.",
                               in_mm(radius), 2 * fan.pleats, std::ceil(packed * 10) / 10)};
  }
  if (radius > most) {
    return Refusal{fan.inner_radius_mm ? "/inner_radius" : "/pleats",
                   fmt::format("The gathered end of {} panels comes to lie {} from the centre, but at most {} leave a "
                               "fan; use {}.",
                               2 * fan.pleats, in_mm(radius), in_mm(most),
                               fan.inner_radius_mm ? "a smaller radius" : "fewer pleats or thinner paper")};
  }
  return std::nullopt;
}

std::variant<Strip, Refusal> strip_of(const Fan& fan, const Wanted& wanted, const Spread& spread) {
  Strip strip;
  strip.depth_mm = fan.depth_mm;
  strip.panels = spread.pleats().panels;
  strip.flap_mm = fan.flap_mm.value_or(tolerance::flap_share * fan.depth_mm);
  strip.lap_mm = fan.lap_mm.value_or(
      std::min(tolerance::lap_share * fan.depth_mm, fan.depth_mm - 2 * tolerance::lap_clearance_mm));
  strip.curve_mm = std::min(tolerance::curve_mm, tolerance::curve_share * wanted.reach_mm());
  if (!wanted.drawn) {
    strip.edge = {{{0, wanted.length_mm}, {strip.length_mm(), wanted.length_mm}}};
    return strip;
  }
  leaf::Ring ring;
  for (const auto& run : wanted.drawn->runs) {
    auto& points = strip.edge.emplace_back();
    for (const Polar& point : run) {
      points.push_back(*spread.flat(point.distance_mm, std::clamp(point.turned_rad, 0.0, spread.spread_rad())));
      if (points.back().z < tolerance::least_length_mm / 2) {
        return Refusal{"/outline",
                       fmt::format("The outline comes within {} of the gathered end, whose radius is {}; "
                                   "keep it further from the centre.",
                                   in_mm(tolerance::least_length_mm / 2), in_mm(spread.pleats().inner_radius_mm))};
      }
    }
    ring.insert(ring.end(), points.begin() + (ring.empty() ? 0 : 1), points.end());
  }
  // Straight ends: rounding must not leave a sliver beyond a side.
  strip.edge.front().front().x = 0;
  strip.edge.back().back().x = strip.length_mm();
  ring.push_back({strip.length_mm(), 0});
  ring.push_back({0, 0});
  if (leaf::self_contact(ring)) {
    return Refusal{"/outline", "The outline crosses or touches itself; draw it as one line from side to side."};
  }
  return strip;
}

} // namespace

std::variant<Made, Refusal> make(const Fan& fan) {
  if (auto refusal = out_of_range(fan)) {
    return *refusal;
  }
  auto wanting = wanted_of(fan);
  if (auto* refusal = std::get_if<Refusal>(&wanting)) {
    return std::move(*refusal);
  }
  const Wanted& wanted = std::get<Wanted>(wanting);
  if (auto refusal = too_tight(fan, wanted)) {
    return *refusal;
  }
  const Trial trial = tried(fan, wanted, fan.pleats, fan.depth_mm);
  if (trial.fault != Trial::Fault::none) {
    return too_few(fan, wanted, trial);
  }
  const Spread spread(trial.pleats, wanted.spread_deg, wanted.middle_deg);
  auto strip = strip_of(fan, wanted, spread);
  if (auto* refusal = std::get_if<Refusal>(&strip)) {
    return std::move(*refusal);
  }
  return Made{spread, std::move(std::get<Strip>(strip))};
}

bool is_disc(const Spread& spread) { return spread.spread_deg() > 360 - 1e-6; }

double cover_radius_mm(const Spread& spread) { return std::ceil(spread.pleats().inner_radius_mm + 5); }

} // namespace fanwright::fan
