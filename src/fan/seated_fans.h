// The fans of one size in their seats on its opened form.
#pragma once

#include "fan/fans.h"
#include "fan/seat.h"

#include <variant>
#include <vector>

namespace fanwright::fan {

struct SeatedFan {
  std::size_t fan = 0; ///< index of the SizedFan
  Seated seated;
};

/// Seats one fan that has a seat; its refusal as of seated_fans().
std::variant<Seated, Unseated> seated(const SizedFan& fan, const Body& body, bool stands);

/// Seats every fan that has a seat; the others are left out. `form` must have its mesh, `paper` is the leaves',
/// `stands` is false for pieces that hang. A refusal has its places in the file ("/fans/0/seat/below_neck"), and the
/// values of its remedies are in the file's units, as drawn, but for "/outline", whose value is the reach that the path
/// is to have there.
std::variant<std::vector<SeatedFan>, Unseated> seated_fans(const std::vector<SizedFan>& fans, const opened::Form& form,
                                                           int leaves, const paper::Paper& paper, bool stands);

/// The ornament with all its seated fans on it.
Figure figure_with(const std::vector<SizedFan>& fans, const std::vector<SeatedFan>& seats, const Body& body,
                   bool stands);
Figure figure_with(const std::vector<SizedFan>& fans, const std::vector<SeatedFan>& seats, const opened::Form& form,
                   int leaves, const paper::Paper& paper, bool stands);

} // namespace fanwright::fan
