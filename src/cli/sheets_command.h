// fanwright sheets: lays the leaves of a design on sheets.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace fanwright::cli {

struct SheetsRequest {
  std::string file;
  std::string size;                ///< name of the only size wanted; empty: all
  std::vector<std::string> stocks; ///< as stock_from reads them; empty: the sheets of the design
  bool any_turn = false;           ///< the grain does not matter
  bool both_faces = false;         ///< leaves may be laid face down
  double lap_mm = 0;               ///< split leaves that fit no stock, with a lap of this width; 0: refuse them
  std::int64_t work = 0;           ///< places to look at; 0: about two seconds for each size
  std::uint64_t seed = 1;
  bool json = false;
};

/// Writes the layout to standard output, or one line about what is wrong to standard error; gives the exit code.
int run_sheets(const SheetsRequest& request);

} // namespace fanwright::cli
