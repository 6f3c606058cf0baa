// A drawn outline made narrower or wider, its heights kept.
#pragma once

#include <string>

namespace fanwright::fit {

/// SVG path data with every x multiplied by `factor` > 0; curves stay what they are, arcs become those of the narrowed
/// ellipse. Coordinates to 1e-4 file units. Data that does not parse comes back as it is.
std::string narrowed(const std::string& path_data, double factor);
} // namespace fanwright::fit
