// fanwright family: the same design in other sizes.
#pragma once

#include <string>
#include <vector>

namespace fanwright::cli {

struct FamilyRequest {
  std::string file;
  std::string size;            ///< the size to go by; empty: the last in the file
  std::vector<double> heights; ///< in `units`
  std::string units = "mm";    ///< mm or in
  std::string out;             ///< copy of the file with these sizes; empty: none
  bool json = false;
};

/// Writes the proposals to standard output, or one line about what is wrong to standard error; gives the exit code.
int run_family(const FamilyRequest& request);

} // namespace fanwright::cli
