// The cut edge of each sheet as a narrow band, so that paper shows its thickness; and how far points are from it.
#pragma once

#include "picture/surface.h"

namespace fanwright::picture {

/// Which points of the form's mesh lie on its outer edge.
std::vector<bool> on_outer_edge(const opened::Form& form);

/// Fills `surface.flat` for `half_panels` copies of `mesh`. `form.edge` is the outer edge; without it all points are
/// far from one.
void place_in_leaf(const opened::Form& form, const opened::Mesh& mesh, int half_panels, Surface& surface);

/// Adds a band of the sheet's thickness along the outer edge and the flat `cut_outs` of every half-panel of `surface`,
/// which is the form's. Nothing is added when the form has no edge.
void add_sheet_edges(const opened::Form& form, const std::vector<leaf::Ring>& cut_outs, int half_panels,
                     double caliper_mm, Surface& surface);

} // namespace fanwright::picture
