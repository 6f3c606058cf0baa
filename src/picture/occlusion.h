// How open to the sky the paper of one half-panel lies, for views that draw it without following light.
#pragma once

#include "picture/half_panel.h"

#include <vector>

namespace fanwright::picture {

/// For each point of the half-panel the share, 0..1, of cosine-weighted directions in which nothing is in the way, mean
/// of both sides of the paper. All panels are alike: the neighbours are seen as mirror images in the wedge's two walls,
/// so that only this panel is searched. `wedge_rad` is the wedge's angle. Empty when there is not enough memory.
std::vector<float> openness(const HalfPanel& half, double wedge_rad);

} // namespace fanwright::picture
