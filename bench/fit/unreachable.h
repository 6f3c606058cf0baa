// Outlines that no leaf can open into, each for a reason that shows in its numbers before anything is solved.
#pragma once

#include "design/design.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fanwright::bench {

struct Unreachable {
  std::string reason; ///< "few leaves", "close rows", "wide", "slender", "hub", "few for auto"
  design::Design design;
};

/// `count` outlines of the trade made unreachable, reasons in turn. The same seed gives the same on every machine.
std::vector<Unreachable> unreachable_targets(std::uint64_t seed, int count);

/// Derives each, looks for remedies, applies each remedy and derives again; prints one line for each and the sum.
/// 0 when all are refused, each with a remedy, and every remedy works.
int bench_unreachable(std::uint64_t seed, int count, int only);

} // namespace fanwright::bench
