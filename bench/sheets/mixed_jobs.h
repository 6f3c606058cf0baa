// Mixed jobs drawn from a seed: leaves of the Orchard's families, some fifteen square decimetres of them.
#pragma once

#include "sheets/job.h"

#include <cstdint>
#include <string>

namespace fanwright::bench {

/// 45 leaves of 8 shapes whose outlines cover 1.4 to 2.1 sheets, so that they take about three; turns of 0 and 180.
sheets::Job mixed_job(std::uint64_t seed);

/// {"sheet": {"width_mm", "height_mm", "margin_mm", "gap_mm"}, "kinds": [{"name", "count", "outline": [[x, z], ...]}]}.
std::string job_json(const sheets::Job& job);
sheets::Job job_from_json(const std::string& text);

} // namespace fanwright::bench
