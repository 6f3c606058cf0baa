// Typed, checked access to the members of a JSON object. Every check that fails throws Refused, which parse() turns
// into a Refusal. Inside src/design only.
#pragma once

#include "design/design.h"
#include "design/json_reader.h"

#include <exception>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace fanwright::design {

/// Carries a refusal out of the nested readers to parse().
class Refused : public std::exception {
public:
  Refused(std::string where, std::string sentence) : refusal{std::move(where), std::move(sentence)} {}
  Refusal refusal;
};

/// Allowed numbers, both ends included unless `above_low`; `unit` is what the message names ("mm", "" for none).
struct Range {
  double low, high;
  std::string_view unit;
  bool above_low = false;
};

/// A length range is in mm; the file may give inches, so the message states both when it must.
struct Units {
  double to_mm = 1.0;
  std::string_view name = "mm";
};

/// One value and its place in the file.
struct Field {
  const Value& value;
  std::string pointer;
  std::string name; ///< what messages call it: its key in quotes, or which entry of what

  [[nodiscard]] double number(const Range& range) const;
  /// mm, from a number in the file's units.
  [[nodiscard]] double length_mm(const Range& range_mm, const Units& units) const;
  [[nodiscard]] int whole_number(int low, int high) const;
  [[nodiscard]] const std::string& text() const;
  /// Text of `fewest` to `most` characters without line breaks or other control characters.
  [[nodiscard]] const std::string& line(int fewest, int most) const;
  [[nodiscard]] bool yes_or_no() const;
  /// Index of the text in `choices`.
  [[nodiscard]] std::size_t choice(std::initializer_list<std::string_view> choices) const;
  [[nodiscard]] const Value::List& list() const;
  /// Entry `index` of a list.
  [[nodiscard]] Field entry(std::size_t index) const;
  [[nodiscard]] bool is_object() const { return std::holds_alternative<Value::Object>(value.held); }
  [[nodiscard]] bool is_list() const { return std::holds_alternative<Value::List>(value.held); }
  [[nodiscard]] bool is_text() const { return std::holds_alternative<std::string>(value.held); }
  [[nodiscard]] bool is_number() const { return std::holds_alternative<double>(value.held); }
  /// Refuses with "Found <what stands there>, but <name> must be <wanted>."
  [[noreturn]] void refuse_kind(std::string_view wanted) const;
  /// Refuses with the sentence given.
  [[noreturn]] void refuse(std::string sentence) const;
};

/// An object whose keys are known: any other key is refused at once.
class Section {
public:
  Section(const Field& field, std::initializer_list<std::string_view> allowed);

  [[nodiscard]] std::optional<Field> find(std::string_view key) const;
  /// As find(), but refuses when the key is missing.
  [[nodiscard]] Field need(std::string_view key) const;
  [[nodiscard]] const std::string& pointer() const { return place; }

private:
  const Value::Object* members;
  std::string place;
  std::string name;
};

/// A computed number as a maker would write it: six significant digits.
std::string plain(double number);

} // namespace fanwright::design
