#include "opened/opened.h"

namespace fanwright::opened {

Sheet sheet_of(const paper::Paper& paper) {
  const bool along_spine = paper.grain == paper::Grain::along_spine;
  Sheet sheet;
  sheet.thickness_mm = paper.caliper_mm;
  sheet.modulus_x_mpa = along_spine ? paper.modulus_across_mpa : paper.modulus_along_mpa;
  sheet.modulus_z_mpa = along_spine ? paper.modulus_along_mpa : paper.modulus_across_mpa;
  sheet.poisson = paper.poisson;
  sheet.shear_mpa = paper.shear_mpa();
  return sheet;
}

Panel panel_of(const leaf::Leaf& leaf, const design::Size& size) {
  Panel panel;
  panel.outline = leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm);
  for (const leaf::Contour& hole : leaf.cut_outs) {
    panel.cut_outs.push_back(leaf::flatten(hole, leaf::flatten_tolerance_mm));
  }
  panel.rows = leaf.rows;
  panel.sheet = sheet_of(size.paper);
  panel.leaves = size.leaves;
  panel.opening_deg = size.opening_deg;
  return panel;
}

} // namespace fanwright::opened
