#include "fit/follow.h"

#include "fit/drawing.h"
#include "fit/pull_back.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"
#include "leaf/silhouette.h"
#include "opened/surface.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace fanwright::fit {
namespace {

/// Steps of the pull-back through one form; each leaves about a tenth of the miss.
constexpr int pull_steps = 4;
/// A settled leaf is solved anew until it opens within this share of the size: half of what leaf_of() promises.
constexpr double followed_share = 0.5 * tolerance::outline_share;

double wedge_of(const design::Size& size) { return size.opening_deg * std::numbers::pi / 180 / (2.0 * size.leaves); }

/// How much larger the size is than the one before; 1 unless its height was changed.
double growth(const design::Size& size, const design::Size& before) {
  return size.height_mm && before.height_mm ? *size.height_mm / *before.height_mm : 1.0;
}

/// Edge and measures of a form that has its place().
void measure(opened::Form& form, const opened::Panel& panel) {
  double lowest = std::numeric_limits<double>::infinity(), highest = -lowest;
  form.hub_radius_mm = std::numeric_limits<double>::infinity();
  for (const leaf::Point flat : opened::outer_edge(panel.outline, opened::tolerance::edge_spacing_mm)) {
    const opened::Point3 place = form.place(flat);
    const double radius = std::hypot(place[0], place[1]);
    form.edge.push_back({flat.x, flat.z, radius, place[2]});
    form.diameter_mm = std::max(form.diameter_mm, 2 * radius);
    lowest = std::min(lowest, place[2]);
    highest = std::max(highest, place[2]);
  }
  for (opened::EdgePoint& point : form.edge)
    point.height -= lowest;
  form.height_mm = highest - lowest;
  const double foot = form.edge.front().z, top = form.edge.back().z;
  constexpr int spine_steps = 40;
  for (int k = 0; k <= spine_steps; ++k) {
    const double z = foot + (top - foot) * k / spine_steps;
    const opened::Point3 place = form.place({0, z});
    form.hub_radius_mm = std::min(form.hub_radius_mm, std::hypot(place[0], place[1]) - 0.5 * panel.sheet.thickness_mm);
  }
  form.place = [place = std::move(form.place), lowest](leaf::Point flat) {
    opened::Point3 p = place(flat);
    p[2] -= lowest;
    return p;
  };
}

/// The last form as it would lie in the size's wedge and at its height. As opened::Solver carries it: each point keeps
/// its share of the angle, the hub grows by t / beta, and what a point has sunk changes with beta^2.
opened::Form carried(const Followed& last, const design::Size& size) {
  opened::Form form;
  form.wedge_rad = wedge_of(size);
  const double scale = growth(size, last.size);
  const double ratio = form.wedge_rad / last.form.wedge_rad;
  const double further =
      size.paper.caliper_mm / form.wedge_rad - scale * last.size.paper.caliper_mm / last.form.wedge_rad;
  form.place = [place = last.form.place, scale, ratio, further](leaf::Point flat) {
    const leaf::Point drawn{flat.x / scale, flat.z / scale};
    const opened::Point3 p = place(drawn);
    const double radius = scale * std::hypot(p[0], p[1]) + further;
    const double angle = ratio * std::atan2(p[1], p[0]);
    return opened::Point3{radius * std::cos(angle), radius * std::sin(angle),
                          scale * (drawn.z + ratio * ratio * (p[2] - drawn.z))};
  };
  return form;
}

/// Ends of the carried form's spine, where a pull-back reads the hub.
void measure_spine_ends(opened::Form& form, const opened::Panel& panel, double scale) {
  double foot = std::numeric_limits<double>::infinity(), top = -foot;
  for (const leaf::Point& p : panel.outline)
    if (p.x < 1e-6) {
      foot = std::min(foot, scale * p.z);
      top = std::max(top, scale * p.z);
    }
  for (const double z : {foot, top}) {
    const opened::Point3 place = form.place({0, z});
    form.edge.push_back({0, z, std::hypot(place[0], place[1]), place[2]});
  }
}

std::variant<leaf::Leaf, Failure> leaf_from(const design::Design& design, const design::Size& size) {
  auto leaf = leaf::build(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf))
    return failure_of(*refusal);
  return std::get<leaf::Leaf>(std::move(leaf));
}

/// The leaf of the drawing's present state; its refusals are told as of the outline that was wanted.
std::variant<leaf::Leaf, Failure> leaf_from(const design::Design& design, const design::Size& size,
                                            const Drawing& drawing, bool curves) {
  const design::Design flat = flat_design(design, size, drawing, curves);
  auto leaf = leaf::build(flat, flat.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf))
    return Failure{refusal->where, "No flat leaf opens into this outline: " + refusal->sentence, true};
  return std::get<leaf::Leaf>(std::move(leaf));
}

/// A new outline's drawing, its flat points found through the carried form.
std::variant<Drawing, Failure> pulled(const design::Design& design, design::Size& size, const Followed& last) {
  auto start = begun(design, size);
  if (auto* drawing = std::get_if<Drawing>(&start)) {
    opened::Form form = carried(last, size);
    measure_spine_ends(form, last.panel, growth(size, last.size));
    for (int k = 0; k < pull_steps; ++k)
      pull_back(form, *drawing);
  }
  return start;
}

std::variant<Followed, Failure> opened_from(const design::Size& size, leaf::Leaf leaf, opened::Solver* solver,
                                            const opened::Options& options) {
  const opened::Panel panel = opened::panel_of(leaf, size);
  auto form = solver != nullptr ? solver->open(panel, options) : opened::open(panel, options);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    return Failure{size.where, failure->sentence, true};
  return Followed{size, std::move(leaf), panel, std::get<opened::Form>(std::move(form)), false};
}

/// Solves the drawing's leaf and pulls it back until it opens as wanted.
std::variant<Followed, Failure> settled_as_wanted(const design::Design& design, const design::Size& size,
                                                  Drawing drawing, opened::Solver& solver,
                                                  const opened::Options& options) {
  for (int k = 0; k < tolerance::most_solves; ++k) {
    auto leaf = leaf_from(design, size, drawing, true);
    if (const auto* failure = std::get_if<Failure>(&leaf))
      return *failure;
    auto followed = opened_from(size, std::get<leaf::Leaf>(std::move(leaf)), &solver, options);
    const auto* found = std::get_if<Followed>(&followed);
    if (found == nullptr)
      return followed;
    if (found->form.lock_ratio > tolerance::most_lock)
      return Failure{size.where, lock_sentence(found->form.lock_ratio, size.leaves), true};
    if (pull_back(found->form, drawing) < followed_share * drawing.size_mm)
      return followed;
  }
  return Failure{"/silhouette/path",
                 "No flat leaf was found that opens into this outline; soften sharp turns of the outline, or use more "
                 "leaves or rows.",
                 true};
}

} // namespace

std::variant<Followed, Failure> begin(const design::Design& design, const design::Size& size, const Options& options) {
  design::Size listed = size;
  std::variant<leaf::Leaf, Failure> leaf = Failure{};
  if (design.shows == design::Shows::flat) {
    leaf = leaf_from(design, size);
  } else {
    const auto drawing = begun(design, listed);
    if (const auto* failure = std::get_if<Failure>(&drawing))
      return *failure;
    leaf = leaf_from(design, listed, std::get<Drawing>(drawing), false);
  }
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  const leaf::Leaf& built = std::get<leaf::Leaf>(leaf);
  const leaf::Box box = leaf::bounds(built.outline);
  opened::Options coarsely{
      std::clamp(std::max(2 * box.width(), box.height()) / 24, 2.5, 10.0), 3, {}, options.cancelled, true};
  auto followed = opened_from(size, built, nullptr, coarsely);
  if (auto* found = std::get_if<Followed>(&followed))
    found->coarse = true;
  return followed;
}

std::variant<Estimate, Failure> estimate(const design::Design& design, const design::Size& size, const Followed& last) {
  design::Size listed = size;
  std::variant<leaf::Leaf, Failure> leaf = Failure{};
  if (design.shows == design::Shows::flat) {
    leaf = leaf_from(design, size);
  } else {
    const auto drawing = pulled(design, listed, last);
    if (const auto* failure = std::get_if<Failure>(&drawing))
      return *failure;
    leaf = leaf_from(design, listed, std::get<Drawing>(drawing), false);
  }
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  Estimate estimate{std::get<leaf::Leaf>(std::move(leaf)), {}, carried(last, size)};
  estimate.panel = opened::panel_of(estimate.leaf, size);
  measure(estimate.form, estimate.panel);
  return estimate;
}

std::variant<Followed, Failure> settle(const design::Design& design, const design::Size& size, const Followed& last,
                                       opened::Solver& solver, const Options& options) {
  const opened::Options how{0, 0, options.progress, options.cancelled, true};
  if (design.shows == design::Shows::opened) {
    design::Size listed = size;
    auto drawing = pulled(design, listed, last);
    if (const auto* failure = std::get_if<Failure>(&drawing))
      return *failure;
    auto followed = settled_as_wanted(design, listed, std::get<Drawing>(std::move(drawing)), solver, how);
    if (auto* found = std::get_if<Followed>(&followed))
      found->size = size;
    return followed;
  }
  auto leaf = leaf_from(design, size);
  if (const auto* failure = std::get_if<Failure>(&leaf))
    return *failure;
  return opened_from(size, std::get<leaf::Leaf>(std::move(leaf)), &solver, how);
}

std::vector<leaf::Point> wanted_outline(const design::Design& design, const design::Size& size) {
  std::vector<leaf::Point> points;
  if (design.shows == design::Shows::flat)
    return points;
  const auto wanted = leaf::silhouette(design, size);
  if (const auto* cut = std::get_if<leaf::Silhouette>(&wanted))
    points = leaf::flatten(cut->outline, leaf::flatten_tolerance_mm);
  return points;
}

} // namespace fanwright::fit
