// Plain line plots as SVG.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace fanwright {

struct Series {
  std::string name;
  std::vector<std::pair<double, double>> points;
  bool line = true; ///< false: marks
};

struct Plot {
  std::string title, across, up; ///< title and names of the axes
  bool logarithmic = false;      ///< both axes; all values above zero
  std::vector<Series> series;
};

std::string svg(const Plot& plot);

} // namespace fanwright
