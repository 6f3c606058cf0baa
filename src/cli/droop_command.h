// fanwright droop: stiffness and thickness of the paper at hand, from a ruler and a table's edge.
#pragma once

#include "cli/droop_readings.h"

namespace fanwright::cli {

/// How to take the readings, for the end of --help.
extern const char* const droop_how_to;

/// Writes the paper to standard output and, where asked, into a design file; or one line about what is wrong to
/// standard error, and then no file is touched. Gives the exit code.
int run_droop(const DroopRequest& request);

} // namespace fanwright::cli
