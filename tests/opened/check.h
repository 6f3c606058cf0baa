// One line of the verification table: what the sheet gives beside what it should give.
#pragma once

#include <string>
#include <vector>

namespace fanwright::opened {

struct Check {
  std::string subject; ///< the case
  std::string measure; ///< what is compared, with its unit
  double expected = 0;
  std::string source; ///< where `expected` comes from
  double found = 0;
  double bar = 0;   ///< largest error allowed, as a share of `scale`
  int points = 0;   ///< control points of the sheet
  double scale = 0; ///< what the error is a share of; 0: `expected`

  double error() const { return (found - expected) / (scale > 0 ? scale : expected); }
};

using Checks = std::vector<Check>;

} // namespace fanwright::opened
