#include "leaf/even_rows.h"

#include "leaf/contour.h"
#include "leaf/sentence.h"
#include "leaf/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>

namespace fanwright::leaf {
namespace {

using design::Refusal;

constexpr double infinity = std::numeric_limits<double>::infinity();
/// Cuts that only touch the strip's edge by rounding are not in its way.
constexpr double rounding_mm = 1e-9;
constexpr double search_step_mm = 0.25;
constexpr int search_halvings = 12; ///< of the search step: finds the height to 0.1 um

/// The part of a-b with z in [low, high]; empty when there is none.
std::optional<std::pair<Point, Point>> clipped(Point a, Point b, double low, double high) {
  if (a.z > b.z)
    std::swap(a, b);
  if (b.z < low || a.z > high)
    return std::nullopt;
  const auto at = [&](double z) { return Point{a.x + (b.x - a.x) * (z - a.z) / (b.z - a.z), z}; };
  return std::pair{a.z < low ? at(low) : a, b.z > high ? at(high) : b};
}

/// Furthest x at which a corner at height `corner_z` may end so that it stays `clear` from the piece p-q, which lies
/// within `clear` of that height: the least of x - sqrt(clear^2 - d^2), d the height difference, taken at the ends or
/// where the circle round the corner touches the piece.
double corner_limit(Point p, Point q, double corner_z, double clear) {
  const auto limit = [&](Point at) {
    const double d = at.z - corner_z;
    return at.x - std::sqrt(std::max(0.0, clear * clear - d * d));
  };
  double least = std::min(limit(p), limit(q));
  if (p.z != q.z) {
    const double slope = (q.x - p.x) / (q.z - p.z);
    const double touching_z = corner_z - clear * slope / std::hypot(1.0, slope);
    if (touching_z > std::min(p.z, q.z) && touching_z < std::max(p.z, q.z))
      least = std::min(least, limit({p.x + slope * (touching_z - p.z), touching_z}));
  }
  return least;
}

/// First height from `from` towards `to` where a strip of at least the end rows' length fits; empty when there is none.
std::optional<double> first_fit(const Reach& reach, const design::EvenRows& wish, double from, double to) {
  const auto fits = [&](double z) { return reach.at(z, wish.width_mm) - wish.spine_gap_mm >= shortest_end_row_mm; };
  if (fits(from))
    return from;
  const double direction = to > from ? 1 : -1;
  const int steps = static_cast<int>(std::abs(to - from) / search_step_mm);
  for (int i = 1; i <= steps; ++i) {
    double good = from + direction * search_step_mm * i;
    if (!fits(good))
      continue;
    double bad = good - direction * search_step_mm;
    for (int k = 0; k < search_halvings; ++k) {
      const double middle = (good + bad) / 2;
      (fits(middle) ? good : bad) = middle;
    }
    return good;
  }
  return std::nullopt;
}

Refusal in_rows(std::string sentence) { return {"/rows", std::move(sentence)}; }

/// Heights of the lowest and highest row.
std::variant<std::pair<double, double>, Refusal> end_heights(const Reach& reach, const design::EvenRows& wish,
                                                             const Leaf& leaf) {
  const double inset = wish.edge_gap_mm + wish.width_mm / 2;
  const double low = leaf.spine_foot_z + inset, high = leaf.spine_top_z - inset;
  const auto lowest = low < high ? first_fit(reach, wish, low, high) : std::nullopt;
  const auto highest = lowest ? first_fit(reach, wish, high, *lowest) : std::nullopt;
  if (!highest)
    return in_rows("No two glue rows " + in_mm(wish.width_mm) + " wide and " + in_mm(shortest_end_row_mm) +
                   " long fit between the gaps of " + in_mm(wish.spine_gap_mm) + " to the spine and " +
                   in_mm(wish.edge_gap_mm) + " to the edge; make the gaps or the rows smaller or the leaf larger.");
  return std::pair{*lowest, *highest};
}

design::Side side_of(int row, design::Side first) {
  const bool even = row % 2 == 0;
  return even == (first == design::Side::inside) ? design::Side::inside : design::Side::between;
}

} // namespace

Reach::Reach(const Ring& outline, const std::vector<Ring>& cut_outs, double edge_gap_mm) : edge_gap_mm_(edge_gap_mm) {
  for (std::size_t i = 0; i + 1 < outline.size(); ++i)
    edges_.push_back({outline[i], outline[i + 1], edge_gap_mm / 2});
  for (const Ring& hole : cut_outs)
    for (std::size_t i = 0; i < hole.size(); ++i)
      edges_.push_back({hole[i], hole[(i + 1) % hole.size()], edge_gap_mm});
}

double Reach::at(double z, double width_mm) const {
  const double low = z - width_mm / 2, high = z + width_mm / 2;
  double least = infinity;
  for (const Edge& edge : edges_) {
    const double bottom = std::min(edge.a.z, edge.b.z), top = std::max(edge.a.z, edge.b.z);
    if (top > low + rounding_mm && bottom < high - rounding_mm)
      if (const auto part = clipped(edge.a, edge.b, low, high))
        least = std::min(least, std::min(part->first.x, part->second.x) - edge_gap_mm_);
    if (top > high && bottom < high + edge.clear_mm - rounding_mm)
      if (const auto part = clipped(edge.a, edge.b, high, high + edge.clear_mm))
        least = std::min(least, corner_limit(part->first, part->second, high, edge.clear_mm));
    if (bottom < low && top > low - edge.clear_mm + rounding_mm)
      if (const auto part = clipped(edge.a, edge.b, low - edge.clear_mm, low))
        least = std::min(least, corner_limit(part->first, part->second, low, edge.clear_mm));
  }
  return least;
}

std::variant<std::vector<GlueRow>, Refusal> even_rows(const design::EvenRows& wish, const Leaf& leaf) {
  if (wish.count < 2 || wish.count > most_rows)
    return in_rows("There are " + std::to_string(wish.count) +
                   " glue rows; there must be at least 2, one inside and one " + "between, and at most " +
                   std::to_string(most_rows) + ".");
  std::vector<Ring> holes;
  for (const Contour& hole : leaf.cut_outs)
    holes.push_back(flatten(hole, flatten_tolerance_mm));
  const Reach reach(flatten(leaf.outline, flatten_tolerance_mm), holes, wish.edge_gap_mm);
  const auto ends = end_heights(reach, wish, leaf);
  if (const auto* refusal = std::get_if<Refusal>(&ends))
    return *refusal;
  const auto [lowest, highest] = std::get<std::pair<double, double>>(ends);
  const double spacing = (highest - lowest) / (wish.count - 1);
  if (spacing - wish.width_mm < strip_clearance_mm)
    return in_rows(std::to_string(wish.count) + " rows would stand " + in_mm(spacing) + " apart and are " +
                   in_mm(wish.width_mm) + " wide; leave " + in_mm(strip_clearance_mm) +
                   " of clear paper at least: take fewer or narrower rows.");
  std::vector<GlueRow> rows;
  for (int i = 0; i < wish.count; ++i) {
    const double z = i + 1 == wish.count ? highest : lowest + spacing * i;
    const double end = reach.at(z, wish.width_mm), length = end - wish.spine_gap_mm;
    if (length < shortest_row_mm)
      return in_rows("Row " + std::to_string(i + 1) + " from the foot would stand at z " + in_mm(z) +
                     ", where the silhouette leaves " + in_mm(std::max(0.0, length)) +
                     " for it between the gaps; it needs " + in_mm(shortest_row_mm) +
                     ": widen the silhouette there, or take another count or smaller gaps.");
    rows.push_back({side_of(i, wish.first), {wish.spine_gap_mm, z}, {end, z}, wish.width_mm});
  }
  return rows;
}

} // namespace fanwright::leaf
