// fanwright check: says before a sheet is cut whether the ornament can be made, and what to change if not.
#pragma once

#include <string>

namespace fanwright::cli {

struct CheckRequest {
  std::string file;
  std::string size; ///< name of the only size wanted; empty: all
  bool json = false;
  bool brief = false; ///< only what is not good
};

/// Writes the findings of every size to standard output; gives the exit code: 1 when a check fails.
int run_check(const CheckRequest& request);

} // namespace fanwright::cli
