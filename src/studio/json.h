// JSON values as the studio writes them: keys in the order they are given, numbers with the digits a maker can use.
// Slow to compile: for the few files that write JSON.
#pragma once

#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

namespace fanwright::studio {

using Json = nlohmann::ordered_json;

/// Rounded to 0.001; what is no finite number becomes null.
inline Json rounded(double value) {
  return std::isfinite(value) ? Json(std::round(value * 1e3) / 1e3 + 0.0) : Json(nullptr);
}

/// On one line; what is not UTF-8 in texts becomes a replacement character.
inline std::string line_of(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

} // namespace fanwright::studio
