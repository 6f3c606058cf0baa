// Where a flat place of the leaf is once open, from the solver's triangles.
#pragma once

#include "opened/opened.h"

#include <map>
#include <utility>
#include <vector>

namespace fanwright::picture {

class OpenedPlace {
public:
  /// The mesh must outlive this and have at least one triangle.
  explicit OpenedPlace(const opened::Mesh& mesh);

  /// Wedge-frame place, mm; a flat place off the paper takes that of the nearest paper.
  opened::Point3 at(leaf::Point flat) const;

private:
  std::pair<long, long> cell(leaf::Point flat) const;

  const opened::Mesh& mesh_;
  std::map<std::pair<long, long>, std::vector<int>> triangles_in_; // by square cells of the flat leaf
};

} // namespace fanwright::picture
