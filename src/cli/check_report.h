// Findings as a person and as a program read them.
#pragma once

#include "fit/check.h"

#include <string>
#include <vector>

namespace fanwright::cli {

struct CheckedSize {
  std::string name;
  std::vector<fit::Finding> findings;
};

/// JSON list of changes that were tried and work: where in the file, the value to write there in its units, in words.
std::string tried_json(const design::Design& design, const std::vector<fit::Change>& tried);

/// One JSON object with the keys always in the same order; docs/check.md describes them.
std::string check_json(const design::Design& design, const std::vector<CheckedSize>& sizes);

/// One table for each size, worst first; `brief` leaves out what is good and told only.
std::string check_table(const std::string& title, const std::vector<CheckedSize>& sizes, bool brief);

} // namespace fanwright::cli
