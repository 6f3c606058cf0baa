// The paper that was measured, next to the usual paper of its weight.
#pragma once

#include "cli/droop_readings.h"
#include "cli/paper_entry.h"
#include "paper/droop.h"
#include "paper/paper.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::cli {

/// One direction of the grain; moduli in MPa.
struct DirectionAtHand {
  std::optional<paper::MeasuredStiffness> measured; ///< empty: taken from the other direction
  double stiffness_mnm = 0, length_mm = 0;
  double uncertainty = 0; ///< of the stiffness, a share
  double modulus_mpa = 0;
  double usual_mnm = 0; ///< stiffness of the usual paper of this weight
};

struct PaperAtHand {
  DroopInput input;
  double caliper_mm = 0; ///< of the stack, or usual for the weight
  double usual_caliper_mm = 0;
  DirectionAtHand along, across;
  PaperEntry entry;
  std::vector<std::string> notes; ///< sentences about what to measure again, or what was assumed
};

/// Puts the readings together; a reading or a paper that cannot be is refused with a sentence.
std::variant<PaperAtHand, std::string> paper_at_hand(const DroopInput& input);

/// "stiffer than usual" and the like.
std::string stiffness_in_words(const DirectionAtHand& direction);
std::string caliper_in_words(const PaperAtHand& paper);

} // namespace fanwright::cli
