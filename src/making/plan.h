// The tasks of a batch before anybody is given to them. Inside src/making only.
#pragma once

#include "making/making.h"

#include <cstdint>
#include <vector>

namespace fanwright::making {

/// Whole seconds, so that sums are exact and a schedule is the same everywhere.
using Seconds = std::int64_t;

struct Job {
  Task task; ///< who exactly and when is left open
  Seconds takes = 0;
};

/// The jobs of a batch in the order in which they are to be taken up; a job stands after all it needs. The pieces are
/// worked in `groups` groups (1 to the number of pieces) that take turns stage by stage: while one group is in the
/// press another is glued. Neither jobs nor order depend on the number of hands and presses.
std::vector<Job> plan(const design::Size& size, const design::Making& making, const FanWork& fans, const Laps& laps,
                      int groups);

} // namespace fanwright::making
