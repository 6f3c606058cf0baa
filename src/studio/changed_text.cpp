#include "studio/changed_text.h"

#include "studio/json.h"

#include <algorithm>

namespace fanwright::studio {
namespace {

using Pointer = Json::json_pointer;

/// Another grammage: what was measured on the paper before no longer holds.
void set_grammage(Json& paper, double grammage) {
  for (const char* key : {"caliper", "stiffness", "modulus", "poisson"})
    paper.erase(key);
  paper["grammage"] = grammage;
}

design::Refusal no_such_size(const std::string& name) {
  return {"/sizes", "There is no size \"" + name + "\" in the design."};
}

} // namespace

std::variant<std::string, design::Refusal> for_kit(const std::string& text,
                                                   const std::optional<std::vector<std::string>>& sizes,
                                                   const std::map<std::string, double>& grammages) {
  Json json = Json::parse(text, nullptr, false);
  if (!json.is_object())
    return design::Refusal{"", "This is not a design file."};
  const bool one = !json.contains("sizes"); // the file stands for one size, "as drawn"
  if (!one && !json["sizes"].is_array())
    return design::Refusal{"/sizes", "The sizes have to be a list."};
  const auto size_of = [&](const std::string& name) -> Json* {
    if (one)
      return name == "as drawn" ? &json : nullptr;
    const auto found = std::ranges::find_if(json["sizes"], [&](const Json& size) {
      return size.is_object() && size.contains("name") && size["name"] == name;
    });
    return found == json["sizes"].end() ? nullptr : &*found;
  };
  for (const auto& [name, grammage] : grammages) {
    Json* size = size_of(name);
    if (size == nullptr)
      return no_such_size(name);
    if (!size->contains("paper"))
      (*size)["paper"] = Json::object();
    if (!(*size)["paper"].is_object())
      return design::Refusal{"/paper", "The paper has to be an object."};
    set_grammage((*size)["paper"], grammage);
  }
  if (sizes) {
    Json chosen = Json::array();
    for (const std::string& name : *sizes) {
      const Json* size = size_of(name);
      if (size == nullptr)
        return no_such_size(name);
      if (!one)
        chosen.push_back(*size);
    }
    if (!one)
      json["sizes"] = std::move(chosen);
  }
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::optional<std::string> with_changes(const std::string& text, const std::vector<told::Change>& changes) {
  Json json = Json::parse(text, nullptr, false);
  if (!json.is_object())
    return std::nullopt;
  try {
    for (const told::Change& change : changes) {
      const Pointer at(change.at);
      if (!change.after.empty())
        json[at] = Json::parse(change.after);
      else if (json.contains(at) && json.at(at.parent_pointer()).is_object())
        json.at(at.parent_pointer()).erase(at.back());
    }
  } catch (const Json::exception&) {
    return std::nullopt;
  }
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string ascii(std::string text) {
  std::ranges::replace_if(
      text, [](unsigned char c) { return c < 0x20 || c > 0x7E || c == '"' || c == '\\'; }, '-');
  return text;
}

} // namespace fanwright::studio
