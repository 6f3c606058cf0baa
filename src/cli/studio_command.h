// fanwright studio: the page to draw and look at ornaments, served on this machine.
#pragma once

#include <string>

namespace fanwright::cli {

struct StudioRequest {
  std::string file; ///< may be empty
  int port = 0;     ///< 0: any free one
  bool no_browser = false;
};

/// Serves until interrupted, or writes one line about what is wrong to standard error; gives the exit code.
int run_studio(const StudioRequest& request);

} // namespace fanwright::cli
