#include "fit/refusals.h"

#include "fit/advice.h"
#include "fit/tolerances.h"
#include "leaf/region.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace fanwright::fit {
namespace {

using leaf::Point;

/// An outline from the axis' foot to its top as a ring that ends on the axis.
leaf::Ring on_axis(leaf::Ring ring) {
  const Point foot = ring.front(), top = ring.back();
  ring.insert(ring.end(), {Point{0, top.z}, Point{0, foot.z}});
  return ring;
}

leaf::Ring wanted_ring(const Drawing& drawing) {
  leaf::Ring ring;
  for (const Run& run : drawing.outline)
    ring.insert(ring.end(), run.wanted.begin(), run.wanted.end());
  return ring;
}

} // namespace

std::string decimals(double value, int places) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", places, value);
  return text;
}

double overlap(const opened::Form& form, const Drawing& drawing) {
  leaf::Ring found;
  for (const opened::EdgePoint& p : form.edge)
    found.push_back({p.radius, p.height});
  return leaf::overlap(on_axis(std::move(found)), on_axis(wanted_ring(drawing)));
}

double overlap(const Hub& hub, const Drawing& drawing) {
  leaf::Ring nearest = wanted_ring(drawing);
  for (Point& p : nearest)
    p = hub.reachable(p);
  return leaf::overlap(on_axis(std::move(nearest)), on_axis(wanted_ring(drawing)));
}

Failure locked(double lock_ratio, const design::Size& size) {
  const int enough = static_cast<int>(std::ceil(size.leaves * lock_ratio / tolerance::sure_lock));
  return {size.where + "/leaves",
          "The glue rows lock: lock ratio " + decimals(lock_ratio, 2) +
              ", and above 0.9 the paper would have to stretch; use at least " + std::to_string(enough) +
              " leaves, or set the rows further apart.",
          true};
}

std::optional<Failure> locked(const leaf::Leaf& leaf, const design::Size& size) {
  const double ratio = cells_of(leaf, size, size.leaves).most_lock_ratio;
  return ratio > tolerance::most_lock ? std::optional(locked(ratio, size)) : std::nullopt;
}

double wedge_of(const design::Size& size) { return size.opening_deg * std::numbers::pi / 180 / (2.0 * size.leaves); }

double hub_radius(const design::Size& size) { return size.paper.caliper_mm / wedge_of(size); }

std::optional<Failure> crowded(const Drawing& drawing, const design::Size& size) {
  const double hub = hub_radius(size);
  leaf::Ring nearest = wanted_ring(drawing);
  for (Point& p : nearest)
    p.x = std::max(p.x, hub);
  const double share = leaf::overlap(on_axis(std::move(nearest)), on_axis(wanted_ring(drawing)));
  if (share >= tolerance::least_overlap)
    return std::nullopt;
  return Failure{size.where + "/leaves",
                 "No flat leaf opens into this outline: " + std::to_string(size.leaves) + " leaves of " +
                     decimals(size.paper.caliper_mm, 2) + " mm fill the middle to " + decimals(hub, 0) +
                     " mm from the axis, and the silhouette could match to " + decimals(100 * share, 1) +
                     " % only; use fewer leaves, thinner paper, or a larger size.",
                 true};
}

Failure hollow(const Hub& hub, const design::Size& size, double share) {
  // The ends stand off with the square of the lock ratio, and so with that of the leaves.
  const double more = std::sqrt((1 - share) / (1 - tolerance::least_overlap));
  return {size.where + "/leaves",
          "No flat leaf opens into this outline: the folds bend away from the axis, by " +
              decimals(std::max(hub.spine.front().x, hub.spine.back().x), 0) +
              " mm at the ends, and the silhouette matches to " + decimals(100 * share, 1) + " % only; use at least " +
              std::to_string(static_cast<int>(std::ceil(size.leaves * more))) +
              " leaves, or set the rows further apart.",
          true};
}

Failure off(double miss_mm) {
  return {"/silhouette/path",
          "No flat leaf was found that opens into this outline: the best stays " + decimals(miss_mm, 1) +
              " mm off; soften sharp turns of the outline, or use more leaves or rows.",
          true};
}

} // namespace fanwright::fit
