// What fanwright droop answers.
#pragma once

#include "cli/paper_at_hand.h"

#include <string>

namespace fanwright::cli {

/// Where the paper was written; empty file: nowhere.
struct DroopTarget {
  std::string file;
  std::string size;               ///< empty: the whole family
  std::vector<std::string> other; ///< sizes of the file that have a paper of their own
};

/// The answer for a person; the entry's lengths are in a file unit of `units_to_mm` mm.
std::string droop_text(const PaperAtHand& paper, double units_to_mm, const DroopTarget& target);

/// The answer for a program, one JSON object.
std::string droop_json(const PaperAtHand& paper, double units_to_mm, const DroopTarget& target);

} // namespace fanwright::cli
