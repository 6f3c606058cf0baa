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
  drawing.curve_mm = std::max(tolerance::curve_mm, tolerance::curve_share * drawing.size_mm);
  return drawing;
}

void move_between(const Run& before, Run& run, double share) {
  for (std::size_t k = 0; k < run.flat.size(); ++k) {
    const Point from = before.flat[k], to = run.flat[k];
    run.flat[k] = {std::lerp(from.x, to.x, share), std::lerp(from.z, to.z, share)};
    if (const double nearer = std::min(from.x, to.x); nearer > 0)
      run.flat[k].x = std::max(run.flat[k].x, nearer / 2); // beyond both, but not beyond the spine
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

/// Rows with what they were chosen by.
struct Chosen {
  Rows rows;
  RowChoice choice;
};

/// Looks for rows on one wanted outline.
class RowSearch {
public:
  RowSearch(const design::Design& design, const design::Size& size, const leaf::Silhouette& wanted,
            const Drawing& drawing)
      : size_(size), drawing_(drawing), around_(leaf::circumstances_of(design, size)), drawn_{wanted.outline,
                                                                                              wanted.cut_outs,
                                                                                              {},
                                                                                              wanted.outline.start.z,
                                                                                              0} {
    around_.is_opened = true;
    around_.hub_mm = hub_radius(size);
    drawn_.spine_top_z = leaf::end_of(wanted.outline.segments[wanted.outline.segments.size() - 2]).z;
  }

  /// The rows of a look. The ends of the spine stand off the axis with the square of the lock ratio: where that would
  /// show in a silhouette drawn to a point, the rows are set further apart than the look has them, as far as it takes.
  Chosen best() const {
    Chosen best{{}, {0, 1, -1}};
    for (const double share : {1.0, 0.85, 0.7, 0.6, 0.5, 0.4}) {
      const double most = best.choice.covered;
      if (most >= (share >= tolerance::usual_lock_share ? tolerance::roomy_overlap : tolerance::good_overlap))
        break;
      Chosen chosen = at(share);
      if (std::holds_alternative<design::Refusal>(chosen.rows))
        return most < 0 ? chosen : best;
      if (chosen.choice.covered > most + tolerance::least_overlap_gain)
        best = std::move(chosen);
    }
    return best;
  }

  /// As many rows as before; nothing when that takes too other a spacing, or covers less.
  std::optional<Chosen> like(const RowChoice& before) const {
    const double enough = std::min(tolerance::good_overlap, before.covered - tolerance::least_overlap_gain);
    for (const double nearer : {1.0, 0.97, 1.03, 0.94, 1.06, 0.9, 1.1, 0.85, 1.15}) {
      Chosen chosen = at(before.share * nearer);
      if (chosen.choice.count == before.count && chosen.choice.covered >= enough) {
        chosen.choice.share = before.share; // or many small changes would lead away from the look
        return chosen;
      }
    }
    return std::nullopt;
  }

private:
  Chosen at(double lock_share) const {
    leaf::RowCircumstances around = around_;
    around.lock_share = lock_share;
    Chosen chosen{leaf::auto_rows(std::get<design::AutoRows>(size_.rows), drawn_, around), {0, lock_share, 0}};
    const auto* rows = std::get_if<std::vector<leaf::GlueRow>>(&chosen.rows);
    if (rows == nullptr)
      return chosen;
    leaf::Leaf leaf = drawn_;
    leaf.rows = *rows;
    for (leaf::GlueRow& row : leaf.rows) {
      row.from.x -= around.hub_mm;
      row.to.x -= around.hub_mm;
    }
    chosen.choice.count = rows->size();
    chosen.choice.covered = overlap(bowed_hub(leaf, size_), drawing_);
    return chosen;
  }

  const design::Size& size_;
  const Drawing& drawing_;
  leaf::RowCircumstances around_;
  leaf::Leaf drawn_;
};

/// Rows that place themselves are chosen once, on the wanted outline, and go on as if they were listed there.
std::vector<design::ListedRow> listed(const std::vector<leaf::GlueRow>& rows, double scale) {
  std::vector<design::ListedRow> list;
  list.reserve(rows.size());
  for (const leaf::GlueRow& row : rows)
    list.push_back(
        {row.side, row.from.x / scale, row.from.z / scale, row.to.x / scale, row.to.z / scale, row.width_mm});
  return list;
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
    curve_mm = drawing.curve_mm;
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

std::variant<Drawing, Failure> begun(const design::Design& design, design::Size& size,
                                     const std::optional<RowChoice>& before) {
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
    const RowSearch search(design, size, wanted, drawing);
    Chosen chosen = search.best();
    if (before && chosen.choice.count != before->count)
      chosen = search.like(*before).value_or(std::move(chosen));
    if (const auto* refusal = std::get_if<design::Refusal>(&chosen.rows))
      return failure_of(*refusal);
    std::vector<design::ListedRow> rows = listed(std::get<std::vector<leaf::GlueRow>>(chosen.rows), wanted.scale);
    const double spine_gap_mm = wanted.scale * rows.front().from_x_mm - hub;
    size.rows = std::move(rows);
    drawing = drawing_of(wanted, size, hub);
    drawing.spine_gap_mm = spine_gap_mm;
    drawing.placed = chosen.choice;
  }
  return drawing;
}

} // namespace fanwright::fit
