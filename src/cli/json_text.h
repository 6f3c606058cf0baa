// Places of members in the text of a JSON file, for changing one and leaving every other byte as its maker wrote it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace fanwright::cli {

inline constexpr std::string_view blanks = " \t\r\n";

/// A member of an object in the text of a file: places of its key, its value and the value's end.
struct Member {
  std::string key;
  std::size_t key_at, value_at, end;
};

/// Members of the object that begins at `object_at`. The text is known to be JSON, here and below.
std::vector<Member> members_of(std::string_view text, std::size_t object_at);

/// The member of this key; null when there is none.
const Member* member(const std::vector<Member>& members, std::string_view key);

/// Where the object begins that the pointer "" or "/sizes/<index>" names.
std::size_t object_at(std::string_view text, const std::string& pointer);

} // namespace fanwright::cli
