// The design file as it is handed on.
#pragma once

#include <string>
#include <string_view>

namespace fanwright::kit {

/// The text of a valid design file without the maker's own rates ("prices"); the text itself where it has none.
std::string shared_design(std::string_view text);

} // namespace fanwright::kit
