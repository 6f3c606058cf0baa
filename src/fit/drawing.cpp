#include "fit/drawing.h"

#include "fit/foreseen.h"
#include "fit/refusals.h"
#include "fit/tolerances.h"
#include "leaf/auto_rows.h"
#include "leaf/contour.h"
#include "leaf/silhouette.h"
#include "leaf/tolerances.h"

#include <algorithm>
#include <cmath>

namespace fanwright::fit {
namespace {

using leaf::Point;

Drawing drawing_of(const leaf::Silhouette& wanted, const design::Size& size, double hub) {
  Drawing drawing;
  drawing.outline = runs_of(wanted.outline, hub, false);
  for (const leaf::Contour& hole : wanted.cut_outs) {
    drawing.cut_outs.push_back(runs_of(hole, hub, true));
  }
  if (const auto* rows = std::get_if<std::vector<design::ListedRow>>(&size.rows)) {
    for (const design::ListedRow& row : *rows) {
      for (const Point end : {Point{row.from_x_mm, row.from_z_mm}, Point{row.to_x_mm, row.to_z_mm}}) {
        drawing.row_ends.wanted.push_back({wanted.scale * end.x, wanted.scale * end.z});
        drawing.row_ends.flat.push_back({wanted.scale * end.x - hub, wanted.scale * end.z});
      }
    }
  }
  double area = 0, length = 0; // Green: the integral of x dz
  for (const Run& run : drawing.outline) {
    for (std::size_t k = 0; k < run.wanted.size(); ++k) {
      const Point p = run.wanted[k];
      drawing.size_mm = std::max({drawing.size_mm, 2 * p.x, p.z});
      if (k > 0) {
        const Point q = run.wanted[k - 1];
        area += (p.z - q.z) * (p.x + q.x) / 2;
        length += std::hypot(p.x - q.x, p.z - q.z);
      }
    }
  }
  drawing.breadth_mm = area / length;
  return drawing;
}

void move_between(const Run& before, Run& run, double share) {
  for (std::size_t k = 0; k < run.flat.size(); ++k) {
    run.flat[k] = {std::lerp(before.flat[k].x, run.flat[k].x, share),
                   std::lerp(before.flat[k].z, run.flat[k].z, share)};
  }
}

/// All that follows the deformation, in the drawing's order.
std::vector<Point> flat_points(const Drawing& drawing) {
  std::vector<Point> points;
  const auto add = [&](const Run& run) { points.insert(points.end(), run.flat.begin(), run.flat.end()); };
  std::ranges::for_each(drawing.outline, add);
  for (const std::vector<Run>& hole : drawing.cut_outs)
    std::ranges::for_each(hole, add);
  add(drawing.row_ends);
  return points;
}

using Rows = std::variant<std::vector<leaf::GlueRow>, design::Refusal>;

/// The rows of a look. The ends of the spine stand off the axis with the square of the lock ratio: where that would
/// show in a silhouette drawn to a point, the rows are set further apart than the look has them, as far as it takes.
Rows chosen_rows(const leaf::Leaf& drawn, const design::AutoRows& wish, leaf::RowCircumstances around,
                 const Drawing& drawing, const design::Size& size) {
  Rows best;
  double most = -1;
  for (const double share : {1.0, 0.85, 0.7, 0.6, 0.5, 0.4}) {
    if (most >= (share >= tolerance::usual_lock_share ? tolerance::roomy_overlap : tolerance::good_overlap)) {
      break;
    }
    around.lock_share = share;
    Rows rows = leaf::auto_rows(wish, drawn, around);
    if (std::holds_alternative<design::Refusal>(rows)) {
      return most < 0 ? rows : best;
    }
    leaf::Leaf leaf = drawn;
    leaf.rows = std::get<std::vector<leaf::GlueRow>>(rows);
    for (leaf::GlueRow& row : leaf.rows) {
      row.from.x -= around.hub_mm;
      row.to.x -= around.hub_mm;
    }
    const double covered = overlap(bowed_hub(leaf, size), drawing);
    if (covered > most + tolerance::least_overlap_gain) {
      most = covered;
      best = std::move(rows);
    }
  }
  return best;
}

/// Rows that place themselves are chosen once, on the wanted outline, and go on as if they were listed there.
std::variant<std::vector<design::ListedRow>, design::Refusal> rows_on(const design::Design& design,
                                                                      const design::Size& size,
                                                                      const leaf::Silhouette& wanted,
                                                                      const Drawing& drawing) {
  leaf::RowCircumstances around = leaf::circumstances_of(design, size);
  around.is_opened = true;
  around.hub_mm = hub_radius(size);
  leaf::Leaf drawn{wanted.outline, wanted.cut_outs, {}, wanted.outline.start.z, 0};
  drawn.spine_top_z = leaf::end_of(wanted.outline.segments[wanted.outline.segments.size() - 2]).z;
  const Rows rows = chosen_rows(drawn, std::get<design::AutoRows>(size.rows), around, drawing, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&rows)) {
    return *refusal;
  }
  std::vector<design::ListedRow> listed;
  for (const leaf::GlueRow& row : std::get<std::vector<leaf::GlueRow>>(rows)) {
    listed.push_back({row.side, row.from.x / wanted.scale, row.from.z / wanted.scale, row.to.x / wanted.scale,
                      row.to.z / wanted.scale, row.width_mm});
  }
  return listed;
}

} // namespace

Drawing between(const Drawing& before, const Drawing& after, double share) {
  Drawing drawing = after;
  for (std::size_t k = 0; k < drawing.outline.size(); ++k) {
    move_between(before.outline[k], drawing.outline[k], share);
  }
  for (std::size_t h = 0; h < drawing.cut_outs.size(); ++h) {
    for (std::size_t k = 0; k < drawing.cut_outs[h].size(); ++k) {
      move_between(before.cut_outs[h][k], drawing.cut_outs[h][k], share);
    }
  }
  move_between(before.row_ends, drawing.row_ends, share);
  return drawing;
}

double mixed_share(const Pull& before, const Pull& pull) {
  const std::vector<Point> from0 = flat_points(before.from), to0 = flat_points(before.to);
  const std::vector<Point> from1 = flat_points(pull.from), to1 = flat_points(pull.to);
  double change = 0, along = 0; // of the move: its square, and the later move along it
  for (std::size_t k = 0; k < from1.size(); ++k) {
    const Point move{to1[k].x - from1[k].x, to1[k].z - from1[k].z};
    const Point changed{move.x - (to0[k].x - from0[k].x), move.z - (to0[k].z - from0[k].z)};
    change += changed.x * changed.x + changed.z * changed.z;
    along += move.x * changed.x + move.z * changed.z;
  }
  return change > 0 ? 1 - along / change : 1;
}

Failure failure_of(const design::Refusal& refusal) {
  return {refusal.where, refusal.sentence, refusal.where == "/leaves"};
}

design::Design flat_design(const design::Design& design, const design::Size& size, const Drawing& drawing,
                           bool curves) {
  design::Design flat = design;
  flat.shows = design::Shows::flat;
  flat.units_to_mm = 1;
  std::optional<double> curve_mm;
  if (curves)
    curve_mm = std::max(tolerance::curve_mm, tolerance::curve_share * drawing.size_mm);
  flat.silhouette_path = path_of(clipped(drawing.outline), curve_mm, false);
  for (const auto& hole : drawing.cut_outs) {
    std::vector<std::vector<Point>> runs;
    runs.reserve(hole.size());
    for (const Run& run : hole) {
      runs.push_back(run.flat);
    }
    flat.silhouette_path += path_of(runs, curve_mm, true);
  }
  flat.sizes = {size};
  flat.sizes[0].height_mm.reset();
  if (auto* rows = std::get_if<std::vector<design::ListedRow>>(&flat.sizes[0].rows)) {
    for (std::size_t k = 0; k < rows->size(); ++k) {
      design::ListedRow& row = (*rows)[k];
      Point from = drawing.row_ends.flat[2 * k];
      const Point to = drawing.row_ends.flat[2 * k + 1];
      if (drawing.spine_gap_mm && to.x > from.x) {
        const double x = std::min(*drawing.spine_gap_mm, to.x - leaf::shortest_row_mm);
        from = {x, to.z + (from.z - to.z) * (to.x - x) / (to.x - from.x)};
      }
      row.from_x_mm = from.x;
      row.from_z_mm = from.z;
      row.to_x_mm = to.x;
      row.to_z_mm = to.z;
    }
  }
  return flat;
}

std::variant<leaf::Leaf, Failure> leaf_from(const design::Design& design, const design::Size& size,
                                            const Drawing& drawing, bool curves) {
  const design::Design flat = flat_design(design, size, drawing, curves);
  auto leaf = leaf::build(flat, flat.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    return Failure{refusal->where, "No flat leaf opens into this outline: " + refusal->sentence, true};
  }
  return std::get<leaf::Leaf>(std::move(leaf));
}

std::variant<Drawing, Failure> begun(const design::Design& design, design::Size& size) {
  auto outline = leaf::silhouette(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&outline)) {
    return Failure{refusal->where, refusal->sentence, false};
  }
  const double hub = hub_radius(size);
  const leaf::Silhouette& wanted = std::get<leaf::Silhouette>(outline);
  Drawing drawing = drawing_of(wanted, size, hub);
  if (auto failure = crowded(drawing, size)) {
    return *std::move(failure);
  }
  if (std::holds_alternative<design::AutoRows>(size.rows)) {
    auto rows = rows_on(design, size, wanted, drawing);
    if (const auto* refusal = std::get_if<design::Refusal>(&rows)) {
      return failure_of(*refusal);
    }
    size.rows = std::get<std::vector<design::ListedRow>>(std::move(rows));
    drawing = drawing_of(wanted, size, hub);
    drawing.spine_gap_mm = wanted.scale * std::get<std::vector<design::ListedRow>>(size.rows).front().from_x_mm - hub;
  }
  return drawing;
}

} // namespace fanwright::fit
