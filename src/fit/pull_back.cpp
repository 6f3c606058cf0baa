#include "fit/pull_back.h"

#include "fit/tolerances.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>
#include <vector>

namespace fanwright::fit {
namespace {

using leaf::Point;

/// Where a flat point comes to lie: distance from the axis, height.
Point opened_place(const opened::Form& form, Point flat) {
  const opened::Point3 place = form.place(flat);
  return {std::hypot(place[0], place[1]), place[2]};
}

/// Inverse of the deformation's local Jacobian.
struct Inverse {
  double xx = 1, xz = 0, zx = 0, zz = 1;

  Point move(Point miss) const { return {xx * miss.x + xz * miss.z, zx * miss.x + zz * miss.z}; }
};

/// By differences from `flat`, which lies at `here`; the identity where the sheet is only continued beyond the paper.
Inverse inverse_at(const opened::Form& form, Point flat, Point here) {
  constexpr double step = 0.25; // mm, well inside a cell
  const Point right = opened_place(form, {flat.x + step, flat.z});
  const Point above = opened_place(form, {flat.x, flat.z + step});
  const double xx = (right.x - here.x) / step, zx = (right.z - here.z) / step;
  const double xz = (above.x - here.x) / step, zz = (above.z - here.z) / step;
  const double area = xx * zz - xz * zx;
  // A sheet seen from the side keeps most of its area.
  if (!(area > 0.3 && area < 3.0))
    return {};
  return {zz / area, -xz / area, -zx / area, xx / area};
}

/// What is drawn right of the axis stays right of the spine, mm.
constexpr double least_off_spine_mm = 0.001;

/// Moves `flat` to where the form takes it to `wanted` (chord method: one Jacobian). Returns the distance before, mm.
double pull_back(const opened::Form& form, Point wanted, Point& flat, int most_pulls) {
  flat.x = std::max(flat.x, least_off_spine_mm); // or the outline would end here
  Point here = opened_place(form, flat);
  const double before = std::hypot(wanted.x - here.x, wanted.z - here.z);
  if (before < tolerance::pulled_back_mm)
    return before;
  const Inverse inverse = inverse_at(form, flat, here);
  double away = before;
  for (int k = 0; k < most_pulls && away >= tolerance::pulled_back_mm; ++k) {
    const Point move = inverse.move({wanted.x - here.x, wanted.z - here.z});
    const double share = std::min(1.0, tolerance::longest_move_mm / std::max(std::hypot(move.x, move.z), 1e-12));
    const Point next{std::max(flat.x + share * move.x, least_off_spine_mm), flat.z + share * move.z};
    const Point there = opened_place(form, next);
    const double left = std::hypot(wanted.x - there.x, wanted.z - there.z);
    if (k > 0 && left > 0.5 * away)
      break;
    flat = next;
    here = there;
    away = left;
  }
  return before;
}

/// The same for an end of the spine: it stays on the spine and comes to lie at the wanted height.
double pull_along_spine(const opened::Form& form, double wanted_height, Point& flat) {
  flat.x = 0;
  const double off = wanted_height - opened_place(form, flat).z;
  flat.z += std::clamp(off, -tolerance::longest_move_mm, tolerance::longest_move_mm);
  return std::abs(off);
}

/// Misses of several runs, added up.
struct Misses {
  double worst_mm = 0, sum_mm = 0;
  int points = 0;

  void add(double away_mm) {
    worst_mm = std::max(worst_mm, away_mm);
    sum_mm += away_mm;
    ++points;
  }
};

void pull_back(const opened::Form& form, const Hub& hub, Run& run, int most_pulls, Misses& misses) {
  for (std::size_t k = 0; k < run.flat.size(); ++k) {
    Point& flat = run.flat[k];
    const bool is_on_axis = run.wanted[k].x < 1e-9;
    misses.add(is_on_axis ? pull_along_spine(form, run.wanted[k].z, flat)
                          : pull_back(form, hub.reachable(run.wanted[k]), flat, most_pulls));
  }
}

} // namespace

double Hub::radius_at(double z) const {
  const auto above = std::ranges::lower_bound(spine, z, {}, &Point::z);
  if (above == spine.begin())
    return above->x;
  const auto below = std::prev(above);
  return above == spine.end() ? below->x : std::lerp(below->x, above->x, (z - below->z) / (above->z - below->z));
}

double Hub::reach_at(double z) const {
  const double radius = radius_at(z);
  return radius + std::max(tolerance::hub_room_share * radius, tolerance::least_hub_room_mm);
}

// With u the wanted distance as a share of the reach R, paper lies (R - r) (c u + (1 - c) u^p) off a spine of radius r.
// The steepest p leaves no turn where squeezing begins, for there the slope of both is 1; where the outline hardly
// rises in the reach, it would crowd all of the rise next to the spine, and a p nearer to 1 turns it less. c keeps what
// is squeezed to the axis in its order.
Point Hub::reachable(Point wanted) const {
  constexpr double order = 0.05; // c
  const double radius = radius_at(wanted.z), reach = reach_at(wanted.z);
  if (wanted.x >= reach)
    return wanted;
  const double room = reach - radius, share = wanted.x / reach;
  const bool is_foot = wanted.z < 0.5 * (spine.front().z + spine.back().z);
  const double steepest = (reach / room - order) / (1 - order);
  const double power = std::min(1 + 2 * (is_foot ? foot_rise_mm : top_rise_mm) / room, steepest);
  return {radius + room * (order * share + (1 - order) * std::pow(share, power)), wanted.z};
}

namespace {

/// Height between the line's first point, on the axis, and where it first comes out of the reach.
double rise_within(double reach, const std::vector<Point>& line) {
  const auto out = std::ranges::find_if(line, [&](Point p) { return p.x >= reach; });
  return out == line.end() ? Hub::steep_mm : std::abs(out->z - line.front().z);
}

} // namespace

Hub hub_of(const opened::Form& form, const Drawing& drawing) {
  Hub hub = hub_along(form.edge.front().z, form.edge.back().z, [&](double z) { return opened_place(form, {0, z}); });
  std::vector<Point> line;
  for (const Run& run : drawing.outline)
    line.insert(line.end(), run.wanted.begin(), run.wanted.end());
  hub.foot_rise_mm = rise_within(hub.reach_at(hub.spine.front().z), line);
  std::ranges::reverse(line);
  hub.top_rise_mm = rise_within(hub.reach_at(hub.spine.back().z), line);
  return hub;
}

namespace {

/// The flat place of the nearest point that was wanted before, moved as the wish has moved.
void begin_from(const std::vector<const Run*>& before, Run& run) {
  for (std::size_t k = 0; k < run.wanted.size(); ++k) {
    double least = std::numeric_limits<double>::infinity();
    for (const Run* known : before)
      for (std::size_t i = 0; i < known->wanted.size(); ++i) {
        const Point moved{run.wanted[k].x - known->wanted[i].x, run.wanted[k].z - known->wanted[i].z};
        const double away = std::hypot(moved.x, moved.z);
        if (away < least) {
          least = away;
          run.flat[k] = {known->flat[i].x + moved.x, known->flat[i].z + moved.z};
        }
      }
  }
}

} // namespace

void begin_from(const Drawing& before, Drawing& drawing) {
  std::vector<const Run*> outline, rows{&before.row_ends};
  for (const Run& run : before.outline)
    outline.push_back(&run);
  for (Run& run : drawing.outline)
    begin_from(outline, run);
  if (!before.row_ends.wanted.empty())
    begin_from(rows, drawing.row_ends);
}

Miss pull_back(const opened::Form& form, Drawing& drawing) {
  const Hub hub = hub_of(form, drawing);
  const auto pull = [&](Drawing& moved, int most_pulls) {
    Misses edge, inside;
    for (Run& run : moved.outline)
      pull_back(form, hub, run, most_pulls, edge);
    for (auto& hole : moved.cut_outs)
      for (Run& run : hole)
        pull_back(form, hub, run, most_pulls, inside);
    pull_back(form, hub, moved.row_ends, most_pulls, inside);
    return Miss{std::max(edge.worst_mm, inside.worst_mm), edge.sum_mm / std::max(1, edge.points)};
  };
  // Beyond the paper the form is only continued, each cell in its own way: long moves go by the edge's slope alone.
  Drawing moved = drawing;
  const Miss miss = pull(moved, 1);
  if (miss.worst_mm < tolerance::sound_move_mm)
    pull(drawing, tolerance::most_pulls);
  else
    drawing = std::move(moved);
  return miss;
}

} // namespace fanwright::fit
