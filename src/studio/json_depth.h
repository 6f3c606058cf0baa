// A bound on nesting, looked at before a text is read as JSON.
#pragma once

#include <string_view>

namespace fanwright::studio {

/// Whether brackets outside texts are nested at most 64 deep; deeper values could exhaust the stack of whoever walks
/// them.
inline bool shallow(std::string_view text) {
  constexpr int most_depth = 64;
  int depth = 0;
  bool quoted = false;
  for (std::size_t k = 0; k < text.size(); ++k) {
    const char c = text[k];
    if (quoted && c == '\\')
      ++k;
    else if (c == '"')
      quoted = !quoted;
    else if (!quoted && (c == '{' || c == '['))
      ++depth;
    else if (!quoted && (c == '}' || c == ']'))
      --depth;
    if (depth > most_depth)
      return false;
  }
  return true;
}

} // namespace fanwright::studio
