// What the bench of the layouts measures.
#pragma once

#include "../processor_time.h"

#include <cstdint>
#include <string>

namespace fanwright::bench {

/// Strip packing: every *.json of the folder, density after `seconds` of one core.
int strips(const std::string& folder, double seconds, std::uint64_t seed);

/// Mixed jobs of seeds `seed`, `seed` + 1, ..., each also by the general library where its program is named.
int mixed_jobs(int number, std::uint64_t seed, const std::string& library_program);

/// Leaf jobs of our own: discs, leaves of the Orchard's kind, mixed jobs.
void leaf_jobs(std::uint64_t seed);

} // namespace fanwright::bench
