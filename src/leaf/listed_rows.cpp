#include "leaf/listed_rows.h"

#include "leaf/contour.h"
#include "leaf/region.h"
#include "leaf/sentence.h"
#include "leaf/strip.h"
#include "leaf/tolerances.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

namespace fanwright::leaf {
namespace {

using design::Refusal;
using Problem = std::optional<Refusal>;

std::string pointer(std::size_t index) { return "/rows/" + std::to_string(index); }
std::string name(std::size_t index) { return "Row " + std::to_string(index + 1); }

struct ScaledRow {
  GlueRow row;
  bool swapped = false; ///< the file's `from` is the outer end
};

ScaledRow scaled_row(const design::ListedRow& listed, double scale) {
  ScaledRow result{{listed.side,
                    {listed.from_x_mm * scale, listed.from_z_mm * scale},
                    {listed.to_x_mm * scale, listed.to_z_mm * scale},
                    listed.width_mm}};
  if (result.row.from.x > result.row.to.x) {
    std::swap(result.row.from, result.row.to);
    result.swapped = true;
  }
  return result;
}

Problem check_run(const GlueRow& row, std::size_t index) {
  const double across = row.to.x - row.from.x, up = std::abs(row.to.z - row.from.z);
  const double slope_deg = std::atan2(up, across) * 180 / std::numbers::pi;
  if (std::hypot(across, up) < shortest_row_mm)
    return Refusal{pointer(index), name(index) + " is " + in_mm(std::hypot(across, up)) + " long; it needs " +
                                       in_mm(shortest_row_mm) + " at least: move its ends apart."};
  if (slope_deg > steepest_row_deg + 1e-9)
    return Refusal{pointer(index), name(index) + " rises " + in_mm(up) + " over " + in_mm(across) + ", a slope of " +
                                       std::to_string(std::lround(slope_deg)) +
                                       " degrees; at most 60 are possible: lay it flatter."};
  return std::nullopt;
}

/// A corner that lies outside the leaf or too near a cut; `where` is the end's pointer.
Problem check_corner(Point corner, const Region& paper, const std::string& where, const std::string& who) {
  const double distance = paper.distance_to_boundary(corner);
  if (!paper.contains(corner))
    return Refusal{where, who + " has a corner at " + place(corner) + ", " + in_mm(distance) +
                              " outside the leaf; move this end inside."};
  if (distance < listed_row_clearance_mm)
    return Refusal{where, who + " has a corner at " + place(corner) + ", only " + in_mm(distance) +
                              " from the edge; keep " + in_mm(listed_row_clearance_mm) + " at least."};
  return std::nullopt;
}

Problem check_inside(const ScaledRow& scaled, std::size_t index, const Region& paper) {
  const auto strip = corners(scaled.row);
  for (const std::size_t corner : {0, 3, 1, 2}) {
    const bool inner = corner == 0 || corner == 3;
    const std::string where = pointer(index) + (inner != scaled.swapped ? "/from" : "/to");
    if (auto problem = check_corner(strip[corner], paper, where, name(index)))
      return problem;
  }
  const double clear = paper.distance_to_boundary(Ring(strip.begin(), strip.end()));
  if (clear < listed_row_clearance_mm)
    return Refusal{pointer(index), name(index) + " comes within " + in_mm(clear) +
                                       " of the silhouette or a cut-out between its ends; keep " +
                                       in_mm(listed_row_clearance_mm) + " at least, or shorten it."};
  return std::nullopt;
}

Problem check_apart(const std::vector<ScaledRow>& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t k = 0; k < i; ++k) {
      const double clear = clear_between(rows[i].row, rows[k].row);
      if (clear <= 0)
        return Refusal{pointer(i),
                       name(i) + " overlaps or crosses row " + std::to_string(k + 1) + "; move them apart."};
      if (clear < strip_clearance_mm)
        return Refusal{pointer(i), name(i) + " leaves " + in_mm(clear) + " of clear paper to row " +
                                       std::to_string(k + 1) + "; leave " + in_mm(strip_clearance_mm) + " at least."};
    }
  return std::nullopt;
}

Problem check_list(const std::vector<design::ListedRow>& list) {
  if (list.size() > most_rows)
    return Refusal{"/rows", "The list holds " + std::to_string(list.size()) + " rows; at most " +
                                std::to_string(most_rows) + " are possible."};
  for (const auto& [side, word] : {std::pair{design::Side::inside, "inside"}, {design::Side::between, "between"}}) {
    const auto is_side = [wanted = side](const design::ListedRow& row) { return row.side == wanted; };
    if (std::none_of(list.begin(), list.end(), is_side))
      return Refusal{"/rows", std::string("No row is of the side \"") + word +
                                  "\"; the ornament needs at least one inside and one between row."};
  }
  return std::nullopt;
}

} // namespace

std::variant<std::vector<GlueRow>, Refusal> listed_rows(const std::vector<design::ListedRow>& list, const Leaf& leaf,
                                                        double scale) {
  if (auto problem = check_list(list))
    return *problem;
  std::vector<Ring> holes;
  for (const Contour& hole : leaf.cut_outs)
    holes.push_back(flatten(hole, flatten_tolerance_mm));
  const Region paper(flatten(leaf.outline, flatten_tolerance_mm), holes);
  std::vector<ScaledRow> scaled;
  for (std::size_t i = 0; i < list.size(); ++i) {
    scaled.push_back(scaled_row(list[i], scale));
    if (auto problem = check_run(scaled.back().row, i))
      return *problem;
    if (auto problem = check_inside(scaled.back(), i, paper))
      return *problem;
  }
  if (auto problem = check_apart(scaled))
    return *problem;
  std::vector<GlueRow> rows;
  rows.reserve(scaled.size());
  for (const ScaledRow& row : scaled)
    rows.push_back(row.row);
  std::stable_sort(rows.begin(), rows.end(),
                   [](const GlueRow& a, const GlueRow& b) { return middle_z(a) < middle_z(b); });
  return rows;
}

} // namespace fanwright::leaf
