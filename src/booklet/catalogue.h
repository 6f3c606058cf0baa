// All words of the booklet, by language. To add a language, write its texts as catalogue_en_labels.cpp and
// catalogue_en_guidance.cpp are written, and name it in catalogue.cpp.
//
// A text may hold {name}, replaced by the value of that name, and {name:form|form}, replaced by the form that the
// language uses with the number of that name: as many forms as the language has, in the order of its plural rule.
#pragma once

#include "booklet/messages.h"

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::booklet {

/// A value to be put into a text: words that are ready, or a count that may choose a plural form.
using Value = std::variant<std::string, int>;
using Values = std::vector<std::pair<std::string_view, Value>>;

struct MessageText {
  Message message;
  std::string_view text;
};

/// What a language is made of.
struct LanguageTexts {
  std::string_view code;                 ///< ISO 639-1
  std::string_view decimal_sign;         ///< "." or ","
  std::size_t plural_forms = 2;          ///< forms that {name:...} has
  std::size_t (*plural_form)(int);       ///< index of the form that goes with a count
  std::span<const MessageText> labels;   ///< texts that name things
  std::span<const MessageText> guidance; ///< texts that explain
};

/// One language, ready to speak. Cheap to copy.
class Language {
public:
  /// By ISO 639-1 code; English when the catalogue lacks the language.
  static Language of(std::string_view code);

  std::string_view code() const { return texts_->code; }
  std::size_t plural_forms() const { return texts_->plural_forms; }

  /// The text as it stands in the catalogue; empty where the language has none.
  std::string_view text(Message message) const;

  /// The text with its places filled in. A place without a value is left out.
  std::string say(Message message, const Values& values = {}) const;

  /// With exactly `places` decimals and the language's decimal sign.
  std::string number(double value, int places = 0) const;

  /// A number and its unit, kept on one line by a narrow no-break space.
  std::string measure(double value, int places, std::string_view unit) const;

  /// "140 ± 2 mm", in whole units; the spread rounded up, at least 1: paper and hands are not truer than that.
  std::string with_spread(double value, double spread, std::string_view unit) const;

  /// Minutes as "47 min" or "2 h 10 min", from an hour on in steps of 5 minutes.
  std::string duration(double minutes) const;

private:
  explicit Language(const LanguageTexts* texts) : texts_(texts) {}
  const LanguageTexts* texts_;
};

/// A place in a text, as {name} or {name:form|form}.
struct TextPlace {
  std::string name;
  std::vector<std::string> forms; ///< empty for a plain place
};

/// The places of a text in their order.
std::vector<TextPlace> places_in(std::string_view text);

} // namespace fanwright::booklet
