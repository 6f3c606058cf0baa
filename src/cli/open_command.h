// fanwright open: predicts the opened ornament of each size.
#pragma once

#include "cli/opened_files.h"

#include <string>

namespace fanwright::cli {

struct OpenRequest {
  std::string file;
  std::string size; ///< name of the only size wanted; empty: all
  bool json = false;
  int stages = 0;    ///< of the opening from the flat stack, to be reported; 0: none
  OpenedFiles files; ///< for one size only
};

/// Writes the prediction to standard output, or one line about what is wrong to standard error; gives the exit code.
int run_open(const OpenRequest& request);

} // namespace fanwright::cli
