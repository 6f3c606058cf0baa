// JSON text (RFC 8259) to a tree of values, bounded in size and depth. Inside src/design only.
#pragma once

#include "design/design.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::design {

inline constexpr std::size_t most_bytes = 1'048'576; ///< 1 MiB
inline constexpr std::size_t most_depth = 32;

struct Member;

/// One JSON value. Members keep the order of the file; no key occurs twice.
struct Value {
  using List = std::vector<Value>;
  using Object = std::vector<Member>;
  std::variant<std::nullptr_t, bool, double, std::string, List, Object> held;
};

struct Member {
  std::string key;
  Value value;
};

/// Reads one JSON document. Refuses what is not JSON, numbers beyond double, duplicate keys, deep nesting, long text.
std::variant<Value, Refusal> read_json(std::string_view text);

/// `text` fit for a one-line message: in double quotes, control characters and broken UTF-8 as '?', cut when long.
std::string in_quotes(std::string_view text);

/// JSON pointer (RFC 6901) of `key` below `pointer`; a long or unprintable key is shortened as in in_quotes().
std::string pointer_to(std::string_view pointer, std::string_view key);

} // namespace fanwright::design
