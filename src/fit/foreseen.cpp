#include "fit/foreseen.h"

#include "fit/advice.h"
#include "fit/refusals.h"
#include "leaf/strip.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace fanwright::fit {
namespace {

using leaf::Point;

/// Share of q^2 by which a gap stands lower; 0.5 (taut) to 0.75, docs/model.md.
constexpr double sunk = 0.6;

/// A place where the spine turns, by how much, radians, and how firmly the rows there hold it.
struct Turn {
  double z, angle, hold;
};

std::vector<Turn> turns_of(const leaf::Leaf& leaf, double wedge_rad) {
  std::vector<Turn> turns;
  for (std::size_t k = 0; k + 1 < leaf.rows.size(); ++k) {
    const leaf::GlueRow& lower = leaf.rows[k];
    const leaf::GlueRow& upper = leaf.rows[k + 1];
    const double reach = std::min(lower.to.x, upper.to.x), clear = leaf::clear_between(lower, upper);
    if (lower.side != upper.side && reach > 0 && clear > 0)
      turns.push_back({(leaf::middle_z(lower) + leaf::middle_z(upper)) / 2,
                       sunk * wedge_rad * wedge_rad * reach / clear, reach / (clear * clear * clear)});
  }
  return turns;
}

} // namespace

Hub bowed_hub(const leaf::Leaf& leaf, const design::Size& size) {
  const std::vector<Turn> turns = turns_of(leaf, wedge_of(size));
  double held = 0, moment = 0;
  for (const Turn& turn : turns) {
    held += turn.hold;
    moment += turn.hold * turn.z;
  }
  // Standing off the axis stretches what is held; so the spine rests on the hub at the middle of what holds it.
  const double rests = held > 0 ? moment / held : 0, foot = leaf.spine_foot_z, top = leaf.spine_top_z;
  const double hub = hub_radius(size);
  return hub_along(foot, std::max(top, foot + 1), [&](double z) {
    double radius = hub;
    for (const Turn& turn : turns)
      if (turn.z < rests)
        radius += turn.angle * std::max(0.0, turn.z - z);
      else
        radius += turn.angle * std::max(0.0, z - turn.z);
    return Point{radius, z - foot};
  });
}

Foreseen foreseen(const Drawing& drawing, const leaf::Leaf& drawn, const design::Size& size) {
  Foreseen ahead;
  ahead.hub = bowed_hub(drawn, size);
  ahead.lock_ratio = cells_of(drawn, size, size.leaves).most_lock_ratio;
  ahead.overlap = overlap(ahead.hub, drawing);
  return ahead;
}

std::variant<Foreseen, Failure> foreseen(const design::Design& design, const design::Size& asked) {
  design::Size size = asked;
  auto start = begun(design, size);
  if (auto* failure = std::get_if<Failure>(&start))
    return std::move(*failure);
  const Drawing& drawing = std::get<Drawing>(start);
  const auto leaf = leaf_from(design, size, drawing);
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  return foreseen(drawing, std::get<leaf::Leaf>(leaf), size);
}

} // namespace fanwright::fit
