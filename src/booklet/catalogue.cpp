#include "booklet/catalogue.h"

#include "booklet/booklet.h"
#include "booklet/catalogue_texts.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace fanwright::booklet {

namespace {

constexpr std::string_view narrow_space = "\u202f"; ///< no-break

/// One thing is singular, any other number of things is plural, none included: English and German.
std::size_t one_or_other(int count) { return count == 1 ? 0 : 1; }

const std::array<LanguageTexts, 2>& all_languages() {
  static const std::array<LanguageTexts, 2> languages = {{
      {"en", ".", 2, one_or_other, english_labels(), english_guidance()},
      {"de", ",", 2, one_or_other, german_labels(), german_guidance()},
  }};
  return languages;
}

/// One piece of a text: words as they stand, or a place.
struct Piece {
  std::string_view words; ///< what stands between the braces, for a place
  bool place = false;
};

std::vector<Piece> pieces_of(std::string_view text) {
  std::vector<Piece> pieces;
  while (!text.empty()) {
    const std::size_t open = std::min(text.find('{'), text.size());
    if (open > 0)
      pieces.push_back({text.substr(0, open), false});
    text.remove_prefix(open);
    if (text.empty())
      break;
    const std::size_t close = std::min(text.find('}'), text.size());
    pieces.push_back({text.substr(1, close - 1), true});
    text.remove_prefix(std::min(close + 1, text.size()));
  }
  return pieces;
}

TextPlace place_of(std::string_view words) {
  TextPlace place;
  const std::size_t colon = std::min(words.find(':'), words.size());
  place.name = words.substr(0, colon);
  if (colon == words.size())
    return place;
  for (std::string_view forms = words.substr(colon + 1);;) {
    const std::size_t bar = std::min(forms.find('|'), forms.size());
    place.forms.emplace_back(forms.substr(0, bar));
    if (bar == forms.size())
      return place;
    forms.remove_prefix(bar + 1);
  }
}

std::string filled(const TextPlace& place, const Values& values, const LanguageTexts& language) {
  const auto value =
      std::find_if(values.begin(), values.end(), [&](const auto& entry) { return entry.first == place.name; });
  if (value == values.end())
    return {};
  const int* count = std::get_if<int>(&value->second);
  if (place.forms.empty())
    return count != nullptr ? std::to_string(*count) : std::get<std::string>(value->second);
  const std::size_t form = count != nullptr ? language.plural_form(*count) : place.forms.size() - 1;
  return place.forms[std::min(form, place.forms.size() - 1)];
}

} // namespace

std::vector<std::string_view> languages() {
  std::vector<std::string_view> codes;
  for (const LanguageTexts& language : all_languages())
    codes.push_back(language.code);
  return codes;
}

std::vector<TextPlace> places_in(std::string_view text) {
  std::vector<TextPlace> places;
  for (const Piece& piece : pieces_of(text))
    if (piece.place)
      places.push_back(place_of(piece.words));
  return places;
}

Language Language::of(std::string_view code) {
  const auto& all = all_languages();
  const auto known = std::find_if(all.begin(), all.end(), [code](const auto& texts) { return texts.code == code; });
  return Language(known == all.end() ? &all.front() : &*known);
}

std::string_view Language::text(Message message) const {
  for (const auto texts : {texts_->labels, texts_->guidance})
    for (const MessageText& entry : texts)
      if (entry.message == message)
        return entry.text;
  return {};
}

std::string Language::say(Message message, const Values& values) const {
  std::string words;
  for (const Piece& piece : pieces_of(text(message)))
    words += piece.place ? filled(place_of(piece.words), values, *texts_) : std::string(piece.words);
  return words;
}

std::string Language::number(double value, int places) const {
  std::array<char, 400> written; // the largest double has 309 digits before the point
  const auto end =
      std::to_chars(written.data(), written.data() + written.size(), value, std::chars_format::fixed, places);
  std::string digits(written.data(), end.ptr);
  if (const std::size_t point = digits.find('.'); point != std::string::npos)
    digits.replace(point, 1, texts_->decimal_sign);
  return digits;
}

std::string Language::measure(double value, int places, std::string_view unit) const {
  return number(value, places) + std::string(narrow_space) + std::string(unit);
}

std::string Language::with_spread(double value, double spread, std::string_view unit) const {
  constexpr double noise = 1e-3; // of a unit, that must not count as another whole one
  const double shown = std::max(1.0, std::ceil(spread - noise));
  return number(value) + std::string(narrow_space) + "±" + std::string(narrow_space) + measure(shown, 0, unit);
}

std::string Language::duration(double minutes) const {
  constexpr int step_min = 5, hour_min = 60;
  const int exact = static_cast<int>(std::lround(minutes));
  const int whole = exact < hour_min ? exact : step_min * static_cast<int>(std::lround(minutes / step_min));
  const auto part = [](int amount, std::string_view unit) {
    return std::to_string(amount) + std::string(narrow_space) + std::string(unit);
  };
  if (whole < hour_min)
    return part(whole, "min");
  const std::string hours = part(whole / hour_min, "h");
  return whole % hour_min == 0 ? hours : hours + std::string(narrow_space) + part(whole % hour_min, "min");
}

} // namespace fanwright::booklet
