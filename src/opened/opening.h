// The life of an ornament from the flat stack to its full opening: its measures, the moment that holds it and the pull
// on its glue at every stage.
#pragma once

#include "opened/opened.h"

#include <variant>
#include <vector>

namespace fanwright::opened {

struct Stage {
  double opening_deg = 0;
  double height_mm = 0;
  double reach_mm = 0;      ///< largest distance from the inner edge of the hub
  double moment_nmm = 0;    ///< holds the ornament at this opening, N mm
  double pull_n_per_mm = 0; ///< on each mm of glue row; see row_pull
  double peak_strain = 0;
};

/// `count` equal stages up to the panel's own opening, the first in the order. Each goes on from the one before.
std::variant<std::vector<Stage>, Failure> opening_sequence(const Panel& panel, int count, const Options& options = {});

/// Pull on the glue rows, N for each mm of their length, were it even: the moment that holds the ornament open is the
/// same in every wall, and the rows of one wall carry it with their distance from the spine as lever. The larger of the
/// two walls' pulls.
double row_pull(const Panel& panel, double moment_nmm);

/// Leaf coordinates of the most stretched place, mm.
leaf::Point most_stretched(const Form& form);

} // namespace fanwright::opened
