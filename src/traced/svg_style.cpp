#include "traced/svg_style.h"

#include "traced/svg_values.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace fanwright::traced {
namespace {

constexpr std::string_view blanks = " \t\r\n\f";

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos)
    return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string without_comments(std::string_view text) {
  std::string kept;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = text.find("/*", at);
    kept += text.substr(at, begin - at);
    if (begin == std::string_view::npos)
      break;
    const std::size_t end = text.find("*/", begin + 2);
    at = end == std::string_view::npos ? text.size() : end + 2;
  }
  return kept;
}

using Declarations = std::vector<std::pair<std::string, std::string>>;
using DeclaredViews = std::vector<std::pair<std::string_view, std::string_view>>;

DeclaredViews declared_in(std::string_view text) {
  DeclaredViews found;
  while (!text.empty()) {
    const std::size_t end = text.find(';');
    const std::string_view one = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    const std::size_t colon = one.find(':');
    if (colon == std::string_view::npos)
      continue;
    std::string_view value = trimmed(one.substr(colon + 1));
    if (const std::size_t important = value.find("!important"); important != std::string_view::npos)
      value = trimmed(value.substr(0, important));
    found.emplace_back(trimmed(one.substr(0, colon)), value);
  }
  return found;
}

/// Copies that outlive the text.
Declarations declarations(std::string_view text) {
  const DeclaredViews views = declared_in(text);
  return {views.begin(), views.end()};
}

template <typename List> auto last_of(const List& list, std::string_view property) -> decltype(&list.front().second) {
  const auto found =
      std::find_if(list.rbegin(), list.rend(), [&](const auto& declared) { return declared.first == property; });
  return found == list.rend() ? nullptr : &found->second;
}

std::optional<int> hexadecimal(std::string_view digits) {
  int value = 0;
  const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
  if (result.ec != std::errc{} || result.ptr != digits.data() + digits.size())
    return std::nullopt;
  return value;
}

std::optional<std::array<int, 3>> hexadecimal_colour(std::string_view digits) {
  const auto value = hexadecimal(digits);
  if (!value)
    return std::nullopt;
  if (digits.size() == 6)
    return std::array{*value >> 16, (*value >> 8) & 255, *value & 255};
  if (digits.size() == 3)
    return std::array{17 * (*value >> 8), 17 * ((*value >> 4) & 15), 17 * (*value & 15)};
  return std::nullopt;
}

std::optional<std::array<int, 3>> function_colour(std::string_view text) {
  const std::size_t open = text.find('(');
  const bool percent = text.find('%') != std::string_view::npos;
  std::string inside(text.substr(open + 1));
  std::replace(inside.begin(), inside.end(), '%', ' ');
  const auto v = numbers(inside);
  if (v.size() < 3)
    return std::nullopt;
  std::array<int, 3> rgb{};
  for (std::size_t k = 0; k < 3; ++k)
    rgb[k] = static_cast<int>(std::lround(std::clamp(percent ? v[k] * 2.55 : v[k], 0.0, 255.0)));
  return rgb;
}

/// Empty: nothing is painted.
std::optional<Paint> paint(std::string_view text, const std::string& current) {
  text = trimmed(text);
  if (text == "none" || text == "transparent")
    return std::nullopt;
  if (text == "currentColor" || text == "currentcolor")
    return paint(current == "currentColor" ? "black" : current, "black");
  Paint result{std::nullopt, std::string(text)};
  if (text == "white")
    result.rgb = std::array{255, 255, 255};
  else if (text == "black")
    result.rgb = std::array{0, 0, 0};
  else if (text.substr(0, 1) == "#")
    result.rgb = hexadecimal_colour(text.substr(1));
  else if (text.substr(0, 3) == "rgb")
    result.rgb = function_colour(text);
  return result;
}

double opacity(std::string_view text, double otherwise) {
  const bool percent = text.find('%') != std::string_view::npos;
  const auto value = take_number(text);
  return value ? (percent ? *value / 100 : *value) : otherwise;
}

FillRule rule_of(std::string_view text) { return text == "evenodd" ? FillRule::evenodd : FillRule::nonzero; }

bool holds_word(std::string_view list, std::string_view word) {
  while (!list.empty()) {
    list = list.substr(std::min(list.find_first_not_of(blanks), list.size()));
    const std::size_t end = std::min(list.find_first_of(blanks), list.size());
    if (list.substr(0, end) == word)
      return true;
    list = list.substr(end);
  }
  return false;
}

} // namespace

std::string_view local_name(pugi::xml_node element) {
  const std::string_view name = element.name();
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

Paint white() { return {std::array{255, 255, 255}, "white"}; }

bool alike(const Paint& a, const Paint& b) {
  constexpr int seen = 8; ///< steps of 255 in a channel
  if (!a.rgb || !b.rgb)
    return a.text == b.text;
  for (std::size_t k = 0; k < 3; ++k)
    if (std::abs((*a.rgb)[k] - (*b.rgb)[k]) > seen)
      return false;
  return true;
}

bool StyleSheet::read_selector(std::string_view text, Rule& rule) {
  if (text.empty() || text.find_first_of(" \t\r\n>+~[:") != std::string_view::npos)
    return false;
  while (!text.empty()) {
    const char mark = text.front() == '.' || text.front() == '#' ? text.front() : ' ';
    if (mark != ' ')
      text.remove_prefix(1);
    const std::size_t end = std::min(text.find_first_of(".#"), text.size());
    const std::string name(text.substr(0, end));
    text = text.substr(end);
    if (mark == '.')
      rule.classes.push_back(name);
    else if (mark == '#')
      rule.identifier = name;
    else
      rule.type = name == "*" ? "" : name;
    rule.weight += mark == '#' ? 100 : mark == '.' ? 10 : name == "*" ? 0 : 1;
  }
  return true;
}

bool StyleSheet::add(std::string_view raw) {
  constexpr std::size_t most_rules = 1'000;
  const std::string text = without_comments(raw);
  bool all = true;
  std::string_view rest = text;
  for (std::size_t open = rest.find('{'); open != std::string_view::npos; open = rest.find('{')) {
    const std::size_t close = std::min(rest.find('}', open), rest.size() - 1);
    std::string_view selectors = trimmed(rest.substr(0, open));
    const Declarations declared = declarations(rest.substr(open + 1, close - open - 1));
    rest = rest.substr(close + 1);
    if (selectors.find('@') != std::string_view::npos) {
      all = false;
      continue;
    }
    while (!selectors.empty()) {
      const std::size_t comma = selectors.find(',');
      Rule rule;
      rule.declarations = declared;
      if (rules_.size() < most_rules && read_selector(trimmed(selectors.substr(0, comma)), rule))
        rules_.push_back(std::move(rule));
      else
        all = false;
      selectors = comma == std::string_view::npos ? std::string_view{} : selectors.substr(comma + 1);
    }
  }
  std::stable_sort(rules_.begin(), rules_.end(), [](const Rule& a, const Rule& b) { return a.weight < b.weight; });
  by_property_.clear();
  for (std::size_t k = 0; k < rules_.size(); ++k)
    for (const auto& declared : rules_[k].declarations)
      by_property_[declared.first].push_back(k);
  return all;
}

bool StyleSheet::matches(const Rule& rule, pugi::xml_node element) {
  if (!rule.type.empty() && rule.type != local_name(element))
    return false;
  if (!rule.identifier.empty() && rule.identifier != element.attribute("id").value())
    return false;
  const std::string_view own = element.attribute("class").value();
  return std::all_of(rule.classes.begin(), rule.classes.end(),
                     [&](const std::string& name) { return holds_word(own, name); });
}

std::string StyleSheet::value(pugi::xml_node element, std::string_view property) const {
  const DeclaredViews own = declared_in(element.attribute("style").value());
  if (const std::string_view* found = last_of(own, property))
    return std::string(*found);
  if (const auto declaring = by_property_.find(std::string(property)); declaring != by_property_.end())
    for (auto k = declaring->second.rbegin(); k != declaring->second.rend(); ++k)
      if (matches(rules_[*k], element))
        return *last_of(rules_[*k].declarations, property);
  return element.attribute(std::string(property).c_str()).value();
}

Style styled(const StyleSheet& sheet, pugi::xml_node element, const Style& parent) {
  Style style = parent;
  const auto given = [&](std::string_view property) -> std::optional<std::string> {
    const std::string text(trimmed(sheet.value(element, property)));
    return text.empty() || text == "inherit" ? std::nullopt : std::optional(text);
  };
  if (const auto text = given("color"))
    style.colour = *text;
  if (const auto text = given("fill"))
    style.fill = paint(*text, style.colour);
  if (const auto text = given("stroke"))
    style.stroke = paint(*text, style.colour);
  if (const auto text = given("fill-opacity"))
    style.fill_opacity = opacity(*text, 1);
  if (const auto text = given("stroke-opacity"))
    style.stroke_opacity = opacity(*text, 1);
  if (const auto text = given("stroke-width"); text)
    style.stroke_width = length(*text, 1).value_or(1);
  if (const auto text = given("fill-rule"))
    style.fill_rule = rule_of(*text);
  if (const auto text = given("clip-rule"))
    style.clip_rule = rule_of(*text);
  if (const auto text = given("visibility"))
    style.visible = *text == "visible";
  return style;
}

} // namespace fanwright::traced
