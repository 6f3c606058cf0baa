// Outlines as runs of points between corners: what follows the deformation from the opened outline to the leaf.
#pragma once

#include "leaf/outline.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::fit {

/// A stretch of outline between two corners: where its points should come to lie, and where they lie in the flat.
struct Run {
  std::vector<leaf::Point> wanted; ///< (distance from the axis, height), mm
  std::vector<leaf::Point> flat;   ///< leaf coordinates, mm
};

/// Runs of a wanted contour; `flat` starts as the wanted place less the hub. The stretch on the axis is left out.
std::vector<Run> runs_of(const leaf::Contour& wanted, double hub_mm, bool closed);

/// The flat outline of the runs as a polyline from the spine to the spine: what lies left of the spine is cut off.
std::vector<std::vector<leaf::Point>> clipped(const std::vector<Run>& runs);

/// SVG path data of runs as few smooth curves within `curve_mm` of their points, or as straight lines when empty.
std::string path_of(const std::vector<std::vector<leaf::Point>>& runs, std::optional<double> curve_mm, bool closed);

} // namespace fanwright::fit
