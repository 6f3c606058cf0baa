// fanwright kit: everything a maker needs, as a folder.
#pragma once

#include <string>

namespace fanwright::cli {

struct KitRequest {
  std::string file;
  std::string out;   ///< folder
  double lap_mm = 0; ///< leaves that their sheet does not take whole are split with a lap so wide; 0: refused
};

/// Writes the kit, or one line about what is wrong to standard error; gives the exit code.
int run_kit(const KitRequest& request);

} // namespace fanwright::cli
