#include "leaf/silhouette.h"

#include "leaf/contour.h"
#include "leaf/leaf.h"
#include "leaf/path_data.h"
#include "leaf/region.h"
#include "leaf/sentence.h"
#include "leaf/tolerances.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace fanwright::leaf {
namespace {

using design::Refusal;
using Problem = std::optional<Refusal>;

Refusal in_path(std::string sentence) { return {"/silhouette/path", std::move(sentence)}; }

bool on_spine(Point p) { return std::abs(p.x) <= spine_snap_mm; }

bool along_spine(Point from, const Segment& segment) {
  return std::holds_alternative<Line>(segment) && on_spine(from) && on_spine(end_of(segment));
}

Point start_of(const Contour& contour, std::size_t segment) {
  return segment == 0 ? contour.start : end_of(contour.segments[segment - 1]);
}

Point& end_reference(Segment& segment) {
  return std::visit([](auto& s) -> Point& { return s.to; }, segment);
}

/// Drops the run along the spine from a closed curve, so that it becomes a curve from spine to spine. The curve is
/// turned until that run stands last; empty when there is none.
std::optional<Contour> opened_at_spine(const Contour& closed) {
  const std::size_t count = closed.segments.size();
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t next = (i + 1) % count;
    if (!along_spine(start_of(closed, i), closed.segments[i]) ||
        along_spine(end_of(closed.segments[i]), closed.segments[next]))
      continue;
    Contour turned{end_of(closed.segments[i]), {}};
    for (std::size_t k = 0; k < count; ++k)
      turned.segments.push_back(closed.segments[(next + k) % count]);
    while (!turned.segments.empty() &&
           along_spine(start_of(turned, turned.segments.size() - 1), turned.segments.back()))
      turned.segments.pop_back();
    return turned;
  }
  return std::nullopt;
}

/// The outline from spine to spine, snapped and run from foot to top, closed by the spine.
std::variant<Contour, Refusal> along_outline(const Subpath& drawn, double factor) {
  Contour curve = scaled({drawn.start, drawn.segments}, factor);
  const Point end = end_of(curve.segments.back());
  const bool returns = std::hypot(end.x - curve.start.x, end.z - curve.start.z) <= spine_snap_mm;
  if (drawn.closed || returns) {
    end_reference(curve.segments.back()) = curve.start;
    auto opened = opened_at_spine(curve);
    if (!opened || opened->segments.empty())
      return in_path(
          "The silhouette is closed but no straight stretch of it runs along the spine (x = 0); begin and end "
          "it on the spine.");
    curve = *std::move(opened);
  }
  Point& last = end_reference(curve.segments.back());
  for (const auto& [point, verb, name] : {std::tuple{curve.start, "begins", "begin"}, std::tuple{last, "ends", "end"}})
    if (!on_spine(point))
      return in_path(std::string("The silhouette ") + verb + " at " + place(point) + ", " + in_mm(std::abs(point.x)) +
                     " away from the spine; let it " + name + " on the spine, at x = 0.");
  curve.start.x = 0;
  last.x = 0;
  if (curve.start.z > last.z)
    curve = reversed(curve);
  curve.segments.push_back(Line{curve.start});
  return curve;
}

/// Scales the drawing so that its outline has the size's height; `scale` is 1 when the size gives none.
std::variant<double, Refusal> scale_to_height(const Subpath& drawn, const design::Design& design,
                                              const design::Size& size) {
  const Box box = bounds(scaled({drawn.start, drawn.segments}, design.units_to_mm));
  if (!(box.height() > 1e-3) || !(box.width() > 1e-3))
    return in_path("The silhouette is " + in_mm(box.width()) + " wide and " + in_mm(box.height()) +
                   " high as drawn; it needs an extent in both directions.");
  return size.height_mm ? *size.height_mm / box.height() : 1.0;
}

Problem check_extent(const Contour& outline, const design::Size& size) {
  const Box box = bounds(outline);
  const std::string where = size.height_mm ? size.where + "/height" : "/silhouette/path";
  const std::string found = "The leaf would be " + in_mm(box.width()) + " wide and " + in_mm(box.height()) + " high";
  if (box.width() > largest_leaf_mm || box.height() > largest_leaf_mm)
    return Refusal{where, found + "; at most " + in_mm(largest_leaf_mm) + " each way are possible: make it smaller."};
  if (box.width() < narrowest_leaf_mm || box.height() < lowest_leaf_mm)
    return Refusal{where, found + "; it needs at least " + in_mm(narrowest_leaf_mm) + " by " + in_mm(lowest_leaf_mm) +
                              ": make it larger."};
  const double spine = std::abs(start_of(outline, outline.segments.size() - 1).z - outline.start.z);
  if (spine < shortest_spine_mm)
    return Refusal{where, "The silhouette begins and ends on the spine only " + in_mm(spine) +
                              " apart; the spine needs " + in_mm(shortest_spine_mm) + " at least."};
  return std::nullopt;
}

Problem check_outline(const Contour& outline, const Ring& ring) {
  if (bounds(outline).left < -spine_snap_mm) {
    const Point left = *std::min_element(ring.begin(), ring.end(), [](Point a, Point b) { return a.x < b.x; });
    return in_path("The silhouette reaches " + place(left) +
                   ", left of the spine; draw the right half only, with x at 0 "
                   "or more.");
  }
  if (const auto contact = self_contact(ring))
    return in_path("The silhouette crosses or touches itself or the spine at " + place(*contact) +
                   "; move its points apart there.");
  return std::nullopt;
}

double box_distance(const Box& a, const Box& b) {
  const double x = std::max({0.0, a.left - b.right, b.left - a.right});
  const double z = std::max({0.0, a.bottom - b.top, b.bottom - a.top});
  return std::hypot(x, z);
}

/// Cut-outs one by one, then in pairs; `count` in sentences is the cut-out's number in the path.
Problem check_cut_outs(const Ring& outline, const std::vector<Ring>& rings) {
  const Region half(outline);
  const std::string remedy = "; keep " + in_mm(cut_out_clearance_mm) + " of paper at least.";
  for (std::size_t i = 0; i < rings.size(); ++i) {
    const std::string name = "Cut-out " + std::to_string(i + 1);
    if (const auto contact = self_contact(rings[i]))
      return in_path(name + " crosses or touches itself, or has no area, at " + place(*contact) +
                     "; move its points apart there.");
    const Point start = rings[i].front();
    if (!half.contains(start))
      return in_path(name + " lies outside the leaf at " + place(start) + "; move it inside the silhouette.");
    if (const double clear = half.distance_to_boundary(rings[i]); clear < cut_out_clearance_mm)
      return in_path(name + ", which begins at " + place(start) + ", comes within " + in_mm(clear) +
                     " of the silhouette or the spine" + remedy);
    const Region hole(rings[i]);
    for (std::size_t k = 0; k < i; ++k) {
      if (box_distance(bounds(rings[i]), bounds(rings[k])) >= cut_out_clearance_mm)
        continue;
      const bool nested = hole.contains(rings[k].front());
      const double clear = nested ? 0 : hole.distance_to_boundary(rings[k]);
      if (clear < cut_out_clearance_mm)
        return in_path(name + ", which begins at " + place(start) + ", comes within " + in_mm(clear) + " of cut-out " +
                       std::to_string(k + 1) + remedy);
    }
  }
  return std::nullopt;
}

Problem check_vertex_count(const Silhouette& cut) {
  double vertices = flattened_size(cut.outline, flatten_tolerance_mm);
  for (const Contour& hole : cut.cut_outs)
    vertices += flattened_size(hole, flatten_tolerance_mm);
  if (vertices <= most_vertices)
    return std::nullopt;
  return in_path("The silhouette is so finely drawn that its cut needs " + std::to_string(std::llround(vertices)) +
                 " points; at most " + std::to_string(most_vertices) +
                 " are possible: draw it with fewer, longer curves.");
}

std::variant<std::vector<Contour>, Refusal> cut_out_contours(const std::vector<Subpath>& subpaths, double factor) {
  if (subpaths.size() - 1 > most_cut_outs)
    return in_path("The path holds " + std::to_string(subpaths.size() - 1) + " cut-outs; at most " +
                   std::to_string(most_cut_outs) + " are possible.");
  std::vector<Contour> contours;
  for (std::size_t i = 1; i < subpaths.size(); ++i) {
    Contour contour = scaled({subpaths[i].start, subpaths[i].segments}, factor);
    if (!subpaths[i].closed)
      return in_path("Cut-out " + std::to_string(i) + ", which begins at " + place(contour.start) +
                     ", is not closed; end it with Z.");
    if (signed_area(contour) > 0)
      contour = reversed(contour);
    contours.push_back(std::move(contour));
  }
  return contours;
}

} // namespace

std::variant<Silhouette, Refusal> silhouette(const design::Design& design, const design::Size& size) {
  auto parsed = parse_path_data(design.silhouette_path);
  if (const auto* fault = std::get_if<PathFault>(&parsed))
    return in_path(fault->sentence);
  const auto& subpaths = std::get<std::vector<Subpath>>(parsed);
  if (subpaths.empty())
    return in_path(
        "The path draws nothing; it needs the right-hand outline of the leaf from the spine's foot to its top.");

  const auto scale = scale_to_height(subpaths.front(), design, size);
  if (const auto* refusal = std::get_if<Refusal>(&scale))
    return *refusal;
  Silhouette cut;
  cut.scale = std::get<double>(scale);
  const double factor = design.units_to_mm * cut.scale;
  auto outline = along_outline(subpaths.front(), factor);
  if (const auto* refusal = std::get_if<Refusal>(&outline))
    return *refusal;
  cut.outline = std::get<Contour>(std::move(outline));
  if (auto problem = check_extent(cut.outline, size))
    return *problem;
  auto cut_outs = cut_out_contours(subpaths, factor);
  if (const auto* refusal = std::get_if<Refusal>(&cut_outs))
    return *refusal;
  cut.cut_outs = std::get<std::vector<Contour>>(std::move(cut_outs));
  if (auto problem = check_vertex_count(cut))
    return *problem;

  const Ring ring = flatten(cut.outline, flatten_tolerance_mm);
  if (auto problem = check_outline(cut.outline, ring))
    return *problem;
  std::vector<Ring> holes;
  for (const Contour& hole : cut.cut_outs)
    holes.push_back(flatten(hole, flatten_tolerance_mm));
  if (auto problem = check_cut_outs(ring, holes))
    return *problem;
  return cut;
}

} // namespace fanwright::leaf
