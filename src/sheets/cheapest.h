// Sheets of several stocks weighed against each other.
#pragma once

#include "sheets/job.h"

namespace fanwright::sheets {

/// Orders in which the stocks may be filled: the cheapest by area first; with prices, also every other stock first, the
/// rest as before (four orders at most). Without prices the order in which they were given, and that alone.
std::vector<std::vector<std::size_t>> orders_of(const Job& job);

/// Lower cost, then fewer sheets, then denser.
bool better(const JobPlan& a, const JobPlan& b);

/// What the emptiest sheets hold, as a job for the sheets that are then at hand.
struct Rest {
  Job job;
  std::vector<std::size_t> kinds, stocks; ///< of the whole job, by those of the rest
  JobPlan kept;                           ///< the plan without these sheets, and without its figures
  double cost = 0;                        ///< of these sheets
};

/// Takes the `count` emptiest sheets out of the plan; fewer when it holds fewer.
Rest emptiest(const JobPlan& plan, const Job& job, int count);

/// The kept sheets and those of the rest's plan, without figures.
JobPlan joined(const Rest& rest, const JobPlan& plan);

} // namespace fanwright::sheets
