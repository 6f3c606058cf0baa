// Proposed sizes as a person and as a program read them.
#pragma once

#include "fit/family.h"

#include <string>
#include <vector>

namespace fanwright::cli {

struct ProposedSize {
  fit::Proposal proposal;
  int sheets = 0; ///< 0 when its leaf fits no sheet that was tried
  double paper_g = 0;
};

/// `sizes_entry` is the value of "sizes" in the design file.
std::string family_json(const std::string& title, const std::vector<ProposedSize>& sizes,
                        const std::string& sizes_entry);
std::string family_text(const std::string& title, const std::string& from, const std::vector<ProposedSize>& sizes);

} // namespace fanwright::cli
