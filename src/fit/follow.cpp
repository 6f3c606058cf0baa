#include "fit/follow.h"

#include "fit/drawing.h"
#include "fit/pull_back.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"
#include "leaf/silhouette.h"
#include "opened/surface.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <array>
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

/// The places of a leaf's points once open, carried on beyond its edge. The solver's own continuation there is that of
/// a polynomial, good for a millimetre or two; here a point keeps the way its nearest paper has moved, and for the
/// first few millimetres how that changes towards the edge.
class Places {
public:
  explicit Places(const Followed& last) : place_(last.form.place), ring_(last.panel.outline) {
    const auto [low, high] = std::ranges::minmax(ring_, {}, &leaf::Point::z);
    low_ = low.z;
    band_mm_ = std::max((high.z - low.z) / bands, 1e-6);
    for (std::size_t k = 0; k < ring_.size(); ++k) {
      const double z = ring_[k].z, next = ring_[(k + 1) % ring_.size()].z;
      for (int band = band_of(std::min(z, next)); band <= band_of(std::max(z, next)); ++band)
        edges_in_[static_cast<std::size_t>(band)].push_back(k);
    }
  }

  opened::Point3 operator()(leaf::Point flat) const {
    if (on_paper(flat))
      return place_(flat);
    const leaf::Point edge = nearest(flat);
    const double distance = std::hypot(flat.x - edge.x, flat.z - edge.z);
    const opened::Point3 there = place_(edge);
    if (distance < 1e-9)
      return there;
    const double step = 2.0; // mm, within a cell
    const leaf::Point within{edge.x - step * (flat.x - edge.x) / distance,
                             edge.z - step * (flat.z - edge.z) / distance};
    const double share = on_paper(within) ? std::min(distance, most_change_mm) / step : 0.0;
    const Moved at_edge = moved(edge, there), further_in = moved(within, place_(within));
    const double radius = flat.x + at_edge.out + share * (at_edge.out - further_in.out);
    const double height = flat.z + at_edge.up + share * (at_edge.up - further_in.up);
    return {radius * std::cos(at_edge.angle), radius * std::sin(at_edge.angle), height};
  }

private:
  static constexpr double most_change_mm = 4;

  struct Moved {
    double out, up, angle;
  };
  static Moved moved(leaf::Point flat, const opened::Point3& place) {
    return {std::hypot(place[0], place[1]) - flat.x, place[2] - flat.z, std::atan2(place[1], place[0])};
  }

  int band_of(double z) const {
    return static_cast<int>(std::clamp(std::floor((z - low_) / band_mm_), 0.0, bands - 1.0));
  }

  /// By counting the edges to the right of the point.
  bool on_paper(leaf::Point p) const {
    bool inside = false;
    for (const std::size_t k : edges_in_[static_cast<std::size_t>(band_of(p.z))]) {
      const leaf::Point a = ring_[k], b = ring_[(k + 1) % ring_.size()];
      if ((a.z > p.z) != (b.z > p.z) && p.x < a.x + (p.z - a.z) * (b.x - a.x) / (b.z - a.z))
        inside = !inside;
    }
    return inside;
  }

  leaf::Point nearest_on(std::size_t k, leaf::Point p) const {
    const leaf::Point a = ring_[k], b = ring_[(k + 1) % ring_.size()];
    const double dx = b.x - a.x, dz = b.z - a.z;
    const double t = std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / std::max(dx * dx + dz * dz, 1e-12), 0.0, 1.0);
    return {a.x + t * dx, a.z + t * dz};
  }

  /// Band by band away from the point, until no other band can be nearer.
  leaf::Point nearest(leaf::Point p) const {
    leaf::Point best = ring_.front();
    double least = std::numeric_limits<double>::infinity();
    const int middle = band_of(p.z);
    for (int away = 0; away < bands && (away - 1) * band_mm_ < least; ++away)
      for (const int band : {middle - away, middle + away})
        if (band >= 0 && band < bands)
          for (const std::size_t k : edges_in_[static_cast<std::size_t>(band)]) {
            const leaf::Point q = nearest_on(k, p);
            if (const double d = std::hypot(p.x - q.x, p.z - q.z); d < least) {
              least = d;
              best = q;
            }
          }
    return best;
  }

  static constexpr int bands = 64; ///< of height, to look at few edges

  std::function<opened::Point3(leaf::Point)> place_;
  leaf::Ring ring_;
  double low_ = 0, band_mm_ = 1;
  std::array<std::vector<std::size_t>, bands> edges_in_;
};

/// The last form as it would lie in the size's wedge and at its height. As opened::Solver carries it: each point keeps
/// its share of the angle, the hub grows by t / beta, and what a point has sunk changes with beta^2.
opened::Form carried(const Followed& last, const design::Size& size) {
  opened::Form form;
  form.wedge_rad = wedge_of(size);
  const double scale = growth(size, last.size);
  const double ratio = form.wedge_rad / last.form.wedge_rad;
  const double further =
      size.paper.caliper_mm / form.wedge_rad - scale * last.size.paper.caliper_mm / last.form.wedge_rad;
  form.place = [place = Places(last), scale, ratio, further](leaf::Point flat) {
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

/// A new outline's drawing, its flat points found through the carried form in `steps` steps.
std::variant<Drawing, Failure> pulled(const design::Design& design, design::Size& size, const Followed& last,
                                      int steps) {
  auto start = begun(design, size);
  if (auto* drawing = std::get_if<Drawing>(&start)) {
    opened::Form form = carried(last, size);
    measure_spine_ends(form, last.panel, growth(size, last.size));
    for (int k = 0; k < steps; ++k)
      pull_back(form, *drawing);
  }
  return start;
}

/// A drawing with the leaf that it gives. Just outside the last leaf the deformation is only guessed at; where it leads
/// to no leaf, fewer steps are taken through it.
struct Pulled {
  design::Size size; ///< with rows that place themselves listed
  Drawing drawing;
  leaf::Leaf leaf;
};
std::variant<Pulled, Failure> pulled_leaf(const design::Design& design, const design::Size& size, const Followed& last,
                                          bool curves) {
  std::variant<Pulled, Failure> result = Failure{};
  for (const int steps : {last.coarse ? 1 : pull_steps, last.coarse ? 0 : 1, 0}) {
    design::Size listed = size;
    auto drawing = pulled(design, listed, last, steps);
    if (auto* failure = std::get_if<Failure>(&drawing))
      return std::move(*failure);
    auto leaf = leaf_from(design, listed, std::get<Drawing>(drawing), curves);
    if (auto* found = std::get_if<leaf::Leaf>(&leaf))
      return Pulled{std::move(listed), std::get<Drawing>(std::move(drawing)), std::move(*found)};
    result = std::get<Failure>(std::move(leaf));
  }
  return result;
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
  std::variant<leaf::Leaf, Failure> leaf = Failure{};
  if (design.shows == design::Shows::flat) {
    leaf = leaf_from(design, size);
  } else {
    auto found = pulled_leaf(design, size, last, false);
    if (auto* failure = std::get_if<Failure>(&found))
      return std::move(*failure);
    leaf = std::get<Pulled>(std::move(found)).leaf;
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
    auto start = pulled_leaf(design, size, last, true);
    if (auto* failure = std::get_if<Failure>(&start))
      return std::move(*failure);
    auto& [listed, drawing, leaf] = std::get<Pulled>(start);
    auto followed = settled_as_wanted(design, listed, std::move(drawing), solver, how);
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
