// fanwright advise: how many leaves and rows, which paper, and what they look like.
#pragma once

#include <string>

namespace fanwright::cli {

struct AdviseRequest {
  std::string file;
  std::string size; ///< name of the only size wanted; empty: all
  bool json = false;
};

/// Writes the advice to standard output, or one line about what is wrong to standard error; gives the exit code.
int run_advise(const AdviseRequest& request);

} // namespace fanwright::cli
