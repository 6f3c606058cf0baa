#include "design/fields.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace fanwright::design {
namespace {

/// The number as the file gives it: the fewest digits that tell it from its neighbours.
std::string exact(double number) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
  return {digits.data(), end};
}

std::string found(const Value& value) {
  struct Describe {
    std::string operator()(std::nullptr_t) const { return "null"; }
    std::string operator()(bool value) const { return value ? "true" : "false"; }
    std::string operator()(double value) const { return exact(value); }
    std::string operator()(const std::string& value) const { return "the text " + in_quotes(value); }
    std::string operator()(const Value::List&) const { return "a list"; }
    std::string operator()(const Value::Object&) const { return "an object"; }
  };
  return std::visit(Describe{}, value.held);
}

std::string allowed_numbers(const Range& range) {
  std::string sentence = range.above_low ? "above " : "from ";
  sentence += plain(range.low) + (range.above_low ? " and at most " : " to ") + plain(range.high);
  if (!range.unit.empty()) {
    sentence += ' ';
    sentence += range.unit;
  }
  return sentence;
}

bool within(double number, const Range& range) {
  return number <= range.high && (range.above_low ? number > range.low : number >= range.low);
}

std::string joined(std::initializer_list<std::string_view> words) {
  std::string result;
  for (const auto& word : words) {
    result += (result.empty() ? "" : ", ") + std::string(word);
  }
  return result;
}

} // namespace

std::string plain(double number) {
  std::array<char, 32> digits{};
  const int length = std::snprintf(digits.data(), digits.size(), "%.6g", number);
  return {digits.data(), static_cast<std::size_t>(length)};
}

void Field::refuse(std::string sentence) const { throw Refused(pointer, std::move(sentence)); }

void Field::refuse_kind(std::string_view wanted) const {
  refuse("Found " + found(value) + ", but " + name + " must be " + std::string(wanted) + ".");
}

double Field::number(const Range& range) const {
  const double* number = std::get_if<double>(&value.held);
  if (number == nullptr || !within(*number, range)) {
    refuse_kind("a number " + allowed_numbers(range));
  }
  return *number;
}

double Field::length_mm(const Range& range_mm, const Units& units) const {
  const Range range{range_mm.low / units.to_mm, range_mm.high / units.to_mm, units.name, range_mm.above_low};
  const double* number = std::get_if<double>(&value.held);
  if (number == nullptr || !within(*number, range)) {
    refuse_kind("a length " + allowed_numbers(range));
  }
  return *number * units.to_mm;
}

int Field::whole_number(int low, int high) const {
  const double* number = std::get_if<double>(&value.held);
  if (number == nullptr || !(*number >= low && *number <= high) || std::floor(*number) != *number) {
    refuse_kind("a whole number from " + std::to_string(low) + " to " + std::to_string(high));
  }
  return static_cast<int>(*number);
}

const std::string& Field::text() const {
  const auto* text = std::get_if<std::string>(&value.held);
  if (text == nullptr) {
    refuse_kind("text in quotes");
  }
  return *text;
}

const std::string& Field::line(int fewest, int most) const {
  const std::string& line = text();
  const bool has_control = std::ranges::any_of(line, [](unsigned char c) { return c < 0x20 || c == 0x7F; });
  // Characters, not bytes: the continuation bytes of UTF-8 do not count.
  const auto length = std::ranges::count_if(line, [](unsigned char c) { return (c & 0xC0U) != 0x80; });
  if (length < fewest || length > most || has_control) {
    refuse_kind("one line of " + std::to_string(fewest) + " to " + std::to_string(most) + " characters");
  }
  return line;
}

bool Field::yes_or_no() const {
  const bool* answer = std::get_if<bool>(&value.held);
  if (answer == nullptr) {
    refuse_kind("true or false");
  }
  return *answer;
}

std::size_t Field::choice(std::initializer_list<std::string_view> choices) const {
  const auto* text = std::get_if<std::string>(&value.held);
  const auto* chosen = text == nullptr ? choices.end() : std::find(choices.begin(), choices.end(), *text);
  if (chosen == choices.end()) {
    refuse_kind("one of " + joined(choices));
  }
  return static_cast<std::size_t>(chosen - choices.begin());
}

const Value::List& Field::list() const {
  const auto* list = std::get_if<Value::List>(&value.held);
  if (list == nullptr) {
    refuse_kind("a list in square brackets");
  }
  return *list;
}

Field Field::entry(std::size_t index) const {
  return {list().at(index), pointer_to(pointer, std::to_string(index)),
          "entry " + std::to_string(index + 1) + " of " + name};
}

Section::Section(const Field& field, std::initializer_list<std::string_view> allowed)
    : members(std::get_if<Value::Object>(&field.value.held)), place(field.pointer), name(field.name) {
  if (members == nullptr) {
    field.refuse_kind("an object in braces");
  }
  for (const Member& member : *members) {
    if (std::find(allowed.begin(), allowed.end(), member.key) == allowed.end()) {
      throw Refused(pointer_to(place, member.key),
                    "The key " + in_quotes(member.key) + " is not known here; " +
                        (allowed.size() == 0 ? "this version of Fanwright reads no keys in " + name
                                             : "known are " + joined(allowed)) +
                        ".");
    }
  }
}

std::optional<Field> Section::find(std::string_view key) const {
  const auto member = std::ranges::find(*members, key, &Member::key);
  if (member == members->end()) {
    return std::nullopt;
  }
  return Field{member->value, pointer_to(place, key), in_quotes(key)};
}

Field Section::need(std::string_view key) const {
  auto field = find(key);
  if (!field) {
    throw Refused(place, "The key " + in_quotes(key) + " is missing in " + name + "; add it.");
  }
  return *std::move(field);
}

} // namespace fanwright::design
