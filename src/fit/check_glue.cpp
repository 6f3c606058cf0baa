// glue.row, glue.fold, glue.edge, glue.cells: where the bead goes when it is pressed.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "fit/refusals.h"
#include "leaf/leaf.h"
#include "leaf/sentence.h"
#include "leaf/strip.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <utility>

namespace fanwright::fit {
namespace {

using leaf::Point;
using leaf::Ring;

double bead_of(double pressed_mm) { return std::sqrt(4 * limit::pressed_film_mm * pressed_mm / std::numbers::pi); }

/// "a bead of at most 0.52 mm", rounded down so that it works.
std::string thinner_bead(double pressed_mm) {
  return "a bead of at most " + decimal(std::floor(100 * bead_of(std::max(pressed_mm, 0.0))) / 100, 2) + " mm";
}

/// Nobody makes a row or a gap so many times as wide for the sake of a bead.
constexpr double within_reason = 3;

std::string row_name(std::size_t index) { return "row " + std::to_string(index + 1) + " from the foot"; }

double distance(Point p, Point a, Point b) {
  const double dx = b.x - a.x;
  const double dz = b.z - a.z;
  const double length = dx * dx + dz * dz;
  const double t = length > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / length, 0.0, 1.0) : 0;
  return std::hypot(a.x + t * dx - p.x, a.z + t * dz - p.z);
}

/// Distance to the nearest cut of the ring; what runs along the spine is fold.
double to_cuts(Point p, const Ring& ring) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    if (a.x > 0 || b.x > 0)
      least = std::min(least, distance(p, a, b));
  }
  return least;
}

struct Nearest {
  double distance_mm = std::numeric_limits<double>::infinity();
  std::size_t row = 0;
};

/// The least distance from the middle of a bead to a cut.
Nearest nearest_cut(const leaf::Leaf& leaf) {
  std::vector<Ring> rings{leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm)};
  for (const leaf::Contour& hole : leaf.cut_outs)
    rings.push_back(leaf::flatten(hole, leaf::flatten_tolerance_mm));
  constexpr double step_mm = 2;
  Nearest nearest;
  for (std::size_t k = 0; k < leaf.rows.size(); ++k) {
    const Point from = leaf.rows[k].from;
    const Point to = leaf.rows[k].to;
    const int steps = std::max(1, static_cast<int>(std::ceil(std::hypot(to.x - from.x, to.z - from.z) / step_mm)));
    for (int i = 0; i <= steps; ++i) {
      const double t = static_cast<double>(i) / steps;
      for (const Ring& ring : rings)
        if (const double d = to_cuts({from.x + t * (to.x - from.x), from.z + t * (to.z - from.z)}, ring);
            d < nearest.distance_mm)
          nearest = {d, k};
    }
  }
  return nearest;
}

void check_row(const Subject& subject, double pressed, Findings& findings) {
  const auto narrowest = std::ranges::min_element(subject.leaf.rows, {}, &leaf::GlueRow::width_mm);
  const double width = narrowest->width_mm;
  Finding finding = measured("glue.row", pressed, "mm", limit::common_practice, "/making/bead");
  finding.verdict = above(pressed / width, limit::filled_row, limit::flooded_row);
  finding.limit = finding.verdict == Finding::fails ? limit::flooded_row * width : width;
  finding.sentence = "A bead of " + decimal(subject.design.making.bead_mm, 2) + " mm is pressed out to " +
                     leaf::in_mm(pressed) + "; the narrowest row is " + leaf::in_mm(width) + " wide.";
  if (finding.verdict != Finding::good)
    finding.remedy =
        "Use " + thinner_bead(width) +
        (pressed < within_reason * width ? ", or rows " + leaf::in_mm(std::ceil(10 * pressed) / 10) + " wide." : ".");
  findings.push_back(std::move(finding));
}

/// Room between pressed-out glue and something it must not reach.
Finding room(std::string id, double distance_mm, double pressed, const std::string& told, const std::string& key) {
  Finding finding = measured(std::move(id), distance_mm - pressed / 2, "mm", limit::common_practice, "");
  finding.verdict = below(finding.value, limit::glue_room_mm, 0);
  finding.limit = finding.verdict == Finding::fails ? 0 : limit::glue_room_mm;
  finding.sentence = told + " ends " + leaf::in_mm(distance_mm) + " away and is pressed out by " +
                     leaf::in_mm(pressed / 2) + (finding.value < 0 ? ": it gets there." : ".");
  if (finding.verdict != Finding::good) {
    const double gap = std::ceil(10 * (pressed / 2 + limit::glue_room_mm)) / 10;
    const std::string away = "eep the rows " + leaf::in_mm(gap) + " away (\"" + key + "\").";
    if (distance_mm <= limit::glue_room_mm)
      finding.remedy = "K" + away;
    else
      finding.remedy = "Use " + thinner_bead(2 * (distance_mm - limit::glue_room_mm)) +
                       (gap < within_reason * distance_mm ? ", or k" + away : ".");
  }
  return finding;
}

/// The paper between two neighbouring rows on different sides.
struct Cell {
  std::size_t lower = 0;
  bool narrowed = false; ///< by glue pressed out of its rows
  double free_mm = 0;    ///< free of glue
  double needed_mm = 0;  ///< to open at all
  double tightness() const { return needed_mm / std::max(free_mm, 1e-6); }
};

/// The tightest of the cells that glue narrows, or of all when it narrows none: a row that locks without any
/// squeeze-out is another check's. Empty when all rows are on one side.
std::optional<Cell> tightest_cell(const Subject& subject, double pressed) {
  const auto& rows = subject.leaf.rows;
  const double wedge = wedge_of(subject.size);
  const auto beyond = [pressed](const leaf::GlueRow& row) { return std::max(0.0, pressed - row.width_mm) / 2; };
  std::optional<Cell> tightest;
  for (std::size_t k = 0; k + 1 < rows.size(); ++k) {
    if (rows[k].side == rows[k + 1].side)
      continue;
    const double spread = beyond(rows[k]) + beyond(rows[k + 1]);
    const double reach = wedge * std::max(rows[k].to.x, rows[k + 1].to.x);
    const Cell cell{k, spread > 0, leaf::clear_between(rows[k], rows[k + 1]) - spread, reach / limit::opens_lock};
    if (!tightest || std::pair(cell.narrowed, cell.tightness()) > std::pair(tightest->narrowed, tightest->tightness()))
      tightest = cell;
  }
  return tightest;
}

/// Paper left free of pressed-out glue, against what opening needs.
void check_cells(const Subject& subject, double pressed, Findings& findings) {
  const auto cell = tightest_cell(subject, pressed);
  if (!cell)
    return;
  Finding finding = measured("glue.cells", cell->free_mm, "mm", limit::lock_source, "/making/bead");
  finding.limit = cell->needed_mm;
  if (cell->narrowed)
    finding.verdict = above(cell->tightness(), limit::opens_well_lock / limit::opens_lock, 1);
  finding.sentence = "Between rows " + std::to_string(cell->lower + 1) + " and " + std::to_string(cell->lower + 2) +
                     " from the foot " + leaf::in_mm(std::max(0.0, cell->free_mm)) + " of paper stay free of glue";
  if (finding.verdict == Finding::good) {
    finding.sentence += ".";
  } else {
    finding.sentence += "; to open, that cell needs " + leaf::in_mm(cell->needed_mm) +
                        (finding.verdict == Finding::fails ? ": glue welds it shut." : " or more.");
    const double narrowest = std::ranges::min(subject.leaf.rows, {}, &leaf::GlueRow::width_mm).width_mm;
    finding.remedy = "Use " + thinner_bead(narrowest) + ", which stays within its row, or set the rows further apart.";
  }
  findings.push_back(std::move(finding));
}

} // namespace

double pressed_bead_mm(double bead_mm) { return std::numbers::pi * bead_mm * bead_mm / (4 * limit::pressed_film_mm); }

void check_pressed_glue(const Subject& subject, Findings& findings) {
  const double pressed = pressed_bead_mm(subject.design.making.bead_mm);
  check_row(subject, pressed, findings);
  const auto& rows = subject.leaf.rows;
  const auto inner = std::ranges::min_element(rows, {}, [](const leaf::GlueRow& row) { return row.from.x; });
  const auto index = static_cast<std::size_t>(inner - rows.begin());
  Finding fold =
      room("glue.fold", inner->from.x, pressed, "Glue of " + row_name(index) + " towards the fold", "spine_gap");
  fold.where = pointer(subject, "/rows");
  findings.push_back(std::move(fold));
  const Nearest nearest = nearest_cut(subject.leaf);
  Finding edge = room("glue.edge", nearest.distance_mm, pressed,
                      "Glue of " + row_name(nearest.row) + " towards the nearest cut edge", "edge_gap");
  edge.where = pointer(subject, "/rows");
  findings.push_back(std::move(edge));
  check_cells(subject, pressed, findings);
}

} // namespace fanwright::fit
