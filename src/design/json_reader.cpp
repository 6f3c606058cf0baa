#include "design/json_reader.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <optional>
#include <utility>

namespace fanwright::design {
namespace {

/// Longest piece of the maker's text that a message repeats, in bytes.
constexpr std::size_t most_shown = 48;

/// Number of bytes of the UTF-8 sequence at the front of `text`, 0 when it is none.
std::size_t sequence_length(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  std::size_t length = 0;
  if (lead < 0x80) {
    length = 1;
  } else if (lead >= 0xC2 && lead < 0xE0) {
    length = 2;
  } else if (lead >= 0xE0 && lead < 0xF0) {
    length = 3;
  } else if (lead >= 0xF0 && lead < 0xF5) {
    length = 4;
  }
  if (length > text.size()) {
    return 0;
  }
  const auto continues = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; };
  return length != 0 && std::all_of(text.begin() + 1, text.begin() + static_cast<std::ptrdiff_t>(length), continues)
             ? length
             : 0;
}

/// C0 and C1 controls, the line separators and the invisible signs that turn the direction of writing.
bool unprintable(std::string_view sequence) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(sequence[i]); };
  if (sequence.size() == 1) {
    return byte(0) < 0x20 || byte(0) == 0x7F;
  }
  if (sequence.size() == 2) {
    return byte(0) == 0xC2 && byte(1) < 0xA0; // U+0080 to U+009F
  }
  const bool separator_or_turn = byte(1) == 0x80 && ((byte(2) >= 0x8B && byte(2) <= 0x8F) || // U+200B to U+200F
                                                     (byte(2) >= 0xA8 && byte(2) <= 0xAE));  // U+2028 to U+202E
  const bool invisible = byte(1) == 0x81 && byte(2) >= 0xA0 && byte(2) <= 0xAF;              // U+2060 to U+206F
  return sequence.size() == 3 && byte(0) == 0xE2 && (separator_or_turn || invisible);
}

std::string printable(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    if (shown.size() >= most_shown) {
      return shown + "...";
    }
    const std::size_t length = sequence_length(text);
    if (length == 0 || unprintable(text.substr(0, length))) {
      shown += '?';
    } else {
      shown += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return shown;
}

std::string line_and_column(std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, offset);
  const auto line = 1 + std::ranges::count(before, '\n');
  const std::size_t break_at = before.rfind('\n');
  const std::string_view in_line = break_at == std::string_view::npos ? before : before.substr(break_at + 1);
  // Columns count characters, not bytes: continuation bytes of UTF-8 do not count.
  const auto column = 1 + std::ranges::count_if(in_line, [](char c) { return (c & 0xC0) != 0x80; });
  return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

/// Why the text stops being JSON at `offset`, for the maker.
std::string syntax_sentence(std::string_view text, std::size_t offset) {
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return "The file is empty; a design file is a JSON object that starts with {\"fanwright\": 1.";
  }
  if (offset >= text.size()) {
    return "The file ends too early: a brace, bracket, quote or value is missing at its end.";
  }
  if (static_cast<unsigned char>(text[offset]) >= 0x80 && sequence_length(text.substr(offset)) == 0) {
    return "The text is not UTF-8 here; save the file with that encoding.";
  }
  std::size_t word_end = offset;
  while (word_end < text.size() && (std::isalnum(static_cast<unsigned char>(text[word_end])) != 0)) {
    ++word_end;
  }
  std::size_t word_start = offset;
  while (word_start > 0 && (std::isalnum(static_cast<unsigned char>(text[word_start - 1])) != 0)) {
    --word_start;
  }
  const std::string_view word = text.substr(word_start, word_end - word_start);
  if (word == "NaN" || word == "nan" || word == "Infinity" || word == "inf") {
    return "Found " + std::string(word) + ", which is no number in JSON; give a finite number.";
  }
  if (text[offset] == '/' || text[offset] == '#') {
    return "JSON knows no comments; remove what starts here.";
  }
  if (text[offset] == '}' || text[offset] == ']') {
    return std::string("Found ") + text[offset] + " too early; look for a comma too many or a missing value before it.";
  }
  return "This is not JSON: " + in_quotes(word.empty() ? text.substr(offset, 1) : word) +
         " was not expected here; look for a missing comma, colon, quote or brace before it.";
}

/// Receives the events of the JSON parser and builds the tree; stops at the first thing to refuse.
class TreeBuilder : public nlohmann::json_sax<nlohmann::json> {
public:
  explicit TreeBuilder(std::string_view whole_text) : text(whole_text) {}

  bool null() override { return add(Value{nullptr}); }
  bool boolean(bool value) override { return add(Value{value}); }
  bool number_integer(std::int64_t value) override { return add(Value{static_cast<double>(value)}); }
  bool number_unsigned(std::uint64_t value) override { return add(Value{static_cast<double>(value)}); }
  bool number_float(double value, const std::string& /*digits*/) override { return add(Value{value}); }
  bool string(std::string& value) override { return add(Value{std::move(value)}); }
  bool binary(nlohmann::json::binary_t& /*value*/) override { return false; } // does not occur in JSON text
  bool start_object(std::size_t /*count*/) override { return open(Value{Value::Object{}}); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t /*count*/) override { return open(Value{Value::List{}}); }
  bool end_array() override { return close(); }

  bool key(std::string& name) override {
    const auto& members = std::get<Value::Object>(open_values.back().held);
    if (std::ranges::any_of(members, [&](const Member& member) { return member.key == name; })) {
      refusal =
          Refusal{pointer_to(pointer(), name), "The key " + in_quotes(name) + " is given twice; keep one of them."};
      return false;
    }
    if (members.size() >= most_members) {
      refusal = Refusal{pointer(), "This object has more than " + std::to_string(most_members) +
                                       " keys; no part of a design file needs so many."};
      return false;
    }
    keys.back() = std::move(name);
    return true;
  }

  bool parse_error(std::size_t position, const std::string& /*last_token*/,
                   const nlohmann::json::exception& error) override {
    // position counts the bytes read, so the offending one lies just before it, unless the text has ended.
    const bool ended = position > text.size();
    const std::size_t offset = ended ? text.size() : std::max<std::size_t>(position, 1) - 1;
    constexpr int number_overflow = 406;
    refusal = Refusal{line_and_column(text, offset),
                      error.id == number_overflow ? "The number that ends here is too large; give a finite number."
                                                  : syntax_sentence(text, offset)};
    return false;
  }

  std::optional<Refusal> refusal;
  Value root{nullptr};

private:
  /// Duplicate keys are looked for one by one, so their number is bounded.
  static constexpr std::size_t most_members = 256;

  bool add(Value value) {
    if (open_values.empty()) {
      root = std::move(value);
    } else if (auto* list = std::get_if<Value::List>(&open_values.back().held)) {
      list->push_back(std::move(value));
    } else {
      std::get<Value::Object>(open_values.back().held).push_back({std::move(keys.back()), std::move(value)});
    }
    return true;
  }

  bool open(Value value) {
    if (open_values.size() >= most_depth) {
      refusal = Refusal{pointer(), "The file is nested more than " + std::to_string(most_depth) +
                                       " deep; a design file needs no more than 5."};
      return false;
    }
    open_values.push_back(std::move(value));
    keys.emplace_back();
    return true;
  }

  bool close() {
    Value closed = std::move(open_values.back());
    open_values.pop_back();
    keys.pop_back();
    return add(std::move(closed));
  }

  /// Pointer of the innermost open value.
  [[nodiscard]] std::string pointer() const {
    std::string pointer;
    for (std::size_t level = 0; level + 1 < open_values.size(); ++level) {
      const auto* list = std::get_if<Value::List>(&open_values[level].held);
      pointer = list != nullptr ? pointer_to(pointer, std::to_string(list->size())) : pointer_to(pointer, keys[level]);
    }
    return pointer;
  }

  std::string_view text;
  std::vector<Value> open_values;
  std::vector<std::string> keys; ///< of the member being read in each open value
};

} // namespace

std::string in_quotes(std::string_view text) { return '"' + printable(text) + '"'; }

std::string pointer_to(std::string_view pointer, std::string_view key) {
  std::string result(pointer);
  result += '/';
  for (const char c : printable(key)) {
    if (c == '~') {
      result += "~0";
    } else if (c == '/') {
      result += "~1";
    } else {
      result += c;
    }
  }
  return result;
}

std::variant<Value, Refusal> read_json(std::string_view text) {
  if (text.size() > most_bytes) {
    return Refusal{"", "The file is larger than 1 MiB; a design file has a few kilobytes."};
  }
  // The JSON parser would take a zero byte for the end of the text and not look at what follows.
  if (const std::size_t zero = text.find('\0'); zero != std::string_view::npos) {
    return Refusal{line_and_column(text, zero),
                   "The text holds a zero byte, so it is no UTF-8 text file; save the file as UTF-8."};
  }
  TreeBuilder builder(text);
  nlohmann::json::sax_parse(text, &builder);
  if (builder.refusal) {
    return *std::move(builder.refusal);
  }
  return std::move(builder.root);
}

} // namespace fanwright::design
