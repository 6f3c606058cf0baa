// fanwright compare: a made prototype held against its prediction.
#pragma once

#include <string>

namespace fanwright::cli {

struct CompareRequest {
  std::string file;
  std::string size;                              ///< empty: the last in the file
  double height = 0, diameter = 0;               ///< as measured, in `units`
  double uncertainty = 0;                        ///< of each reading; 0: 0.5 mm
  double wanted_height = 0, wanted_diameter = 0; ///< of the next piece; 0: not asked for
  std::string units = "mm";                      ///< mm or in
  std::string out;                               ///< copy of the file with the corrected height; empty: none
  bool json = false;
};

/// Writes the comparison to standard output, or one line about what is wrong to standard error; gives the exit code.
int run_compare(const CompareRequest& request);

} // namespace fanwright::cli
