// Stocks as makers write them.
#pragma once

#include "sheets/job.h"

#include <string_view>
#include <variant>

namespace fanwright::sheets {

/// "A4", "letter", "305x305", "8.5x13in" (width x height), "roll:610" or "roll:24in" (the roll's width; stretches up to
/// 3 m), each with an optional price and number at hand: "A3@0.40", "A4#20", "A3@0.40#10". Margin and gap are those of
/// `like`. Refuses anything else with what is understood.
std::variant<Stock, Refusal> stock_from(std::string_view text, const Sheet& like);

} // namespace fanwright::sheets
