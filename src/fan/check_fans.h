// What to know before the fans of a size are cut, as findings beside those of the leaf (docs/check.md).
#pragma once

#include "fan/fans.h"
#include "fit/check.h"

#include <variant>
#include <vector>

namespace fanwright::fan {

/// Findings of all fans, in the file's order. A fan that cannot spread is a finding, "fan.form", that fails; what no
/// fan can be read from is a refusal.
std::variant<std::vector<fit::Finding>, design::Refusal> check(const design::Design& design, const design::Size& size);

/// Is the file sound and the fan alone cannot be made?
bool fails_check(const design::Refusal& refusal);

} // namespace fanwright::fan
