// What to know before the fans of a size are cut, as findings beside those of the leaf (docs/check.md).
#pragma once

#include "fan/fans.h"
#include "fit/check.h"

#include <variant>
#include <vector>

namespace fanwright::fan {

/// Findings of all fans, in the file's order. A fan that cannot spread is a finding, "fan.form", that fails; what no
/// fan can be read from is a refusal. `form` is the size's opened form with its mesh; null, or where its rows lock or
/// its paper tears: nothing is said of seats.
std::variant<std::vector<fit::Finding>, design::Refusal> check(const design::Design& design, const design::Size& size,
                                                               const opened::Form* form);

/// How the fans sit: one that cannot is a finding, "fan.seat", that fails.
std::vector<fit::Finding> check_seats(const design::Design& design, const design::Size& size,
                                      const std::vector<SizedFan>& fans, const opened::Form& form);

/// Is the file sound and the fan alone cannot be made?
bool fails_check(const design::Refusal& refusal);

} // namespace fanwright::fan
