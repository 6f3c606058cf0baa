#include "leaf/contour.h"
#include "making/making.h"
#include "making/times.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::making {

namespace {

constexpr double mm_per_m = 1e3, mm2_per_m2 = 1e6;

double half_area_mm2(const leaf::Leaf& leaf) {
  double area = leaf::signed_area(leaf.outline);
  for (const leaf::Contour& cut_out : leaf.cut_outs)
    area += leaf::signed_area(cut_out); // clockwise, so negative
  return area;
}

/// Length of the cut outline of one half, its stretch along the spine left out.
double open_edge_mm(const leaf::Leaf& leaf) {
  const leaf::Ring ring = leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm);
  double length = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const leaf::Point a = ring[i], b = ring[(i + 1) % ring.size()];
    length += std::hypot(b.x - a.x, b.z - a.z);
  }
  return length - (leaf.spine_top_z - leaf.spine_foot_z);
}

double rows_length_mm(const leaf::Leaf& leaf, design::Side side) {
  double length = 0;
  for (const leaf::GlueRow& row : leaf.rows)
    if (row.side == side)
      length += std::hypot(row.to.x - row.from.x, row.to.z - row.from.z);
  return length;
}

double narrowest_row_mm(const leaf::Leaf& leaf) {
  const auto narrowest = std::ranges::min_element(leaf.rows, {}, &leaf::GlueRow::width_mm);
  return narrowest == leaf.rows.end() ? 0 : narrowest->width_mm;
}

void add_glue(Materials& materials, const leaf::Leaf& leaf, int leaves, double bead_mm, double fan_bead_mm,
              const Laps& laps) {
  materials.inside_bead_mm = rows_length_mm(leaf, design::Side::inside) * leaves;
  materials.between_bead_mm = rows_length_mm(leaf, design::Side::between) * materials.joints;
  materials.glue_g_per_m = bead_g_per_m(bead_mm);
  materials.spread_mm = pressed_width_mm(bead_mm, pressed_film_mm);
  materials.fan_bead_mm = fan_bead_mm;
  materials.lap_bead_mm = laps.glued_mm2 / materials.spread_mm * leaves;
  materials.glue_g =
      (materials.inside_bead_mm + materials.between_bead_mm + materials.fan_bead_mm + materials.lap_bead_mm) /
      mm_per_m * materials.glue_g_per_m;
  materials.narrowest_row_mm = narrowest_row_mm(leaf);
  // w = pi d^2 / (4 h) solved for d.
  materials.widest_bead_mm = std::sqrt(4 * pressed_film_mm * materials.narrowest_row_mm / std::numbers::pi);
}

} // namespace

double bead_g_per_m(double bead_mm) {
  // mm2 times m is cm3, so g/cm3 needs no further factor.
  return std::numbers::pi * bead_mm * bead_mm / 4 * glue_density_g_cm3;
}

double pressed_width_mm(double bead_mm, double film_mm) { return std::numbers::pi * bead_mm * bead_mm / (4 * film_mm); }

Materials materials(const leaf::Leaf& leaf, const design::Size& size, const design::Making& making, int sheets,
                    const FanWork& fans, const Laps& laps) {
  const bool closed = size.opening_deg >= 360;
  Materials result;
  result.sheets = sheets;
  result.leaf_area_mm2 = 2 * half_area_mm2(leaf);
  result.paper_g =
      (result.leaf_area_mm2 + laps.area_mm2) / mm2_per_m2 * size.paper.grammage_gsm * size.leaves + fans.paper_g;
  result.joints = size.leaves - (closed ? 0 : 1);
  add_glue(result, leaf, size.leaves, making.bead_mm, fans.bead_mm, laps);
  result.edge_area_m2 = open_edge_mm(leaf) * size.paper.caliper_mm * 2 * size.leaves / mm2_per_m2;
  if (making.glitter)
    result.glitter_g = result.edge_area_m2 * glitter_layer_g_m2;
  if (making.sealer)
    result.sealer_g = result.edge_area_m2 * sealer_coats_g_m2 / sealer_caught_on_edges;
  if (closed)
    result.clips = 1 + static_cast<int>(std::ceil((leaf.spine_top_z - leaf.spine_foot_z) / seam_length_per_clip_mm));
  return result;
}

} // namespace fanwright::making
