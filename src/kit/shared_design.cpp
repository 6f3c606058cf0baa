#include "kit/shared_design.h"

#include <nlohmann/json.hpp>

namespace fanwright::kit {

std::string shared_design(std::string_view text) {
  auto json = nlohmann::ordered_json::parse(text, nullptr, false);
  if (!json.is_object() || json.erase("prices") == 0)
    return std::string(text);
  return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

} // namespace fanwright::kit
