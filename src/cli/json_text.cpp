#include "cli/json_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>

namespace fanwright::cli {
namespace {

std::size_t end_of_string(std::string_view text, std::size_t at) {
  for (++at; text[at] != '"'; ++at)
    if (text[at] == '\\')
      ++at;
  return at + 1;
}

/// One past the value that begins at `at`. The text is known to be JSON, here and below.
std::size_t end_of_value(std::string_view text, std::size_t at) {
  if (text[at] == '"')
    return end_of_string(text, at);
  if (text[at] != '{' && text[at] != '[')
    return text.find_first_of(",]} \t\r\n", at);
  int depth = 0;
  do {
    if (text[at] == '"') {
      at = end_of_string(text, at);
      continue;
    }
    depth += text[at] == '{' || text[at] == '[' ? 1 : text[at] == '}' || text[at] == ']' ? -1 : 0;
    ++at;
  } while (depth > 0);
  return at;
}

} // namespace

std::vector<Member> members_of(std::string_view text, std::size_t object_at) {
  std::vector<Member> members;
  std::size_t at = text.find_first_not_of(blanks, object_at + 1);
  while (text[at] != '}') {
    const std::size_t key_end = end_of_string(text, at);
    const std::size_t value_at = text.find_first_not_of(blanks, text.find(':', key_end) + 1);
    const std::size_t end = end_of_value(text, value_at);
    // A key may be written with escapes.
    members.push_back({nlohmann::json::parse(text.substr(at, key_end - at)).get<std::string>(), at, value_at, end});
    at = text.find_first_not_of(blanks, end);
    if (text[at] == ',')
      at = text.find_first_not_of(blanks, at + 1);
  }
  return members;
}

const Member* member(const std::vector<Member>& members, std::string_view key) {
  const auto found = std::ranges::find(members, key, &Member::key);
  return found == members.end() ? nullptr : &*found;
}

std::size_t object_at(std::string_view text, const std::string& pointer) {
  const std::size_t top = text.find('{');
  if (pointer.empty())
    return top;
  const auto members = members_of(text, top);
  std::size_t at = text.find_first_not_of(blanks, member(members, "sizes")->value_at + 1);
  for (long index = std::strtol(pointer.c_str() + std::string_view("/sizes/").size(), nullptr, 10); index > 0;
       --index) {
    at = text.find(',', end_of_value(text, at));
    at = text.find_first_not_of(blanks, at + 1);
  }
  return at;
}

} // namespace fanwright::cli
