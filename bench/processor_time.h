// Time spent by a bench.
#pragma once

#include <ctime>

namespace fanwright::bench {

/// Seconds this process has computed, all its threads together.
inline double processor_seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

} // namespace fanwright::bench
