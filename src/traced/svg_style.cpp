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

constexpr std::array<std::string_view, static_cast<std::size_t>(Property::count)> names = {
    "clip-path", "clip-rule", "color",  "display",        "fill",         "fill-opacity", "fill-rule", "mask",
    "opacity",   "overflow",  "stroke", "stroke-opacity", "stroke-width", "transform",    "visibility"};

std::optional<Property> property_called(std::string_view name) {
  const auto* found = std::find(names.begin(), names.end(), name);
  return found == names.end() ? std::nullopt : std::optional(static_cast<Property>(found - names.begin()));
}

/// What a style attribute or a rule declares, of the properties that are read.
void declare(std::string_view text, Declared& declared) {
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
    if (const auto property = property_called(trimmed(one.substr(0, colon))); property && !value.empty())
      declared.set(*property, value);
  }
}

template <typename Act> void each_word(std::string_view list, const Act& act) {
  while (true) {
    list = list.substr(std::min(list.find_first_not_of(blanks), list.size()));
    if (list.empty())
      return;
    const std::size_t end = std::min(list.find_first_of(blanks), list.size());
    act(list.substr(0, end));
    list = list.substr(end);
  }
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

void sort_once(std::vector<int>& numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
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

int StyleSheet::number_of_class(std::string_view name) {
  return names_.emplace(name, static_cast<int>(names_.size())).first->second;
}

bool StyleSheet::read_selector(std::string_view text, Rule& rule) {
  constexpr std::size_t longest = 200;
  if (text.empty() || text.size() > longest || text.find_first_of(" \t\r\n>+~[:") != std::string_view::npos)
    return false;
  while (!text.empty()) {
    const char mark = text.front() == '.' || text.front() == '#' ? text.front() : ' ';
    if (mark != ' ')
      text.remove_prefix(1);
    const std::size_t end = std::min(text.find_first_of(".#"), text.size());
    const std::string name(text.substr(0, end));
    text = text.substr(end);
    if (mark == '.')
      rule.classes.push_back(number_of_class(name));
    else if (mark == '#')
      rule.identifier = name;
    else
      rule.type = name == "*" ? "" : name;
    rule.weight += mark == '#' ? 100 : mark == '.' ? 10 : name == "*" ? 0 : 1;
  }
  sort_once(rule.classes);
  return true;
}

bool StyleSheet::add(std::string_view raw) {
  constexpr std::size_t most_rules = 1'000, longest_value = 1'000;
  const std::string text = without_comments(raw);
  bool all = true;
  std::string_view rest = text;
  for (std::size_t open = rest.find('{'); open != std::string_view::npos; open = rest.find('{')) {
    const std::size_t close = std::min(rest.find('}', open), rest.size() - 1);
    std::string_view selectors = trimmed(rest.substr(0, open));
    Declared declared;
    declare(rest.substr(open + 1, close - open - 1), declared);
    rest = rest.substr(close + 1);
    if (selectors.find('@') != std::string_view::npos) {
      all = false;
      continue;
    }
    auto values = std::make_shared<Values>(); // shared by all selectors of the rule, and outlives the text
    for (std::size_t k = 0; k < names.size(); ++k)
      if (const std::string_view value = declared[static_cast<Property>(k)];
          !value.empty() && value.size() <= longest_value)
        values->emplace_back(static_cast<Property>(k), value);
    while (!selectors.empty()) {
      const std::size_t comma = selectors.find(',');
      Rule rule;
      rule.values = values;
      const auto after = [&](int weight, const Rule& other) { return weight < other.weight; };
      if (rules_.size() < most_rules && read_selector(trimmed(selectors.substr(0, comma)), rule))
        rules_.insert(std::upper_bound(rules_.begin(), rules_.end(), rule.weight, after), std::move(rule));
      else
        all = false;
      selectors = comma == std::string_view::npos ? std::string_view{} : selectors.substr(comma + 1);
    }
  }
  return all;
}

std::vector<int> StyleSheet::classes_of(pugi::xml_node element) const {
  std::vector<int> classes;
  each_word(element.attribute("class").value(), [&](std::string_view name) {
    if (const auto known = names_.find(std::string(name)); known != names_.end())
      classes.push_back(known->second);
  });
  sort_once(classes);
  return classes;
}

Declared StyleSheet::of(pugi::xml_node element) const {
  Declared declared;
  std::string_view own, identifier;
  for (const pugi::xml_attribute attribute : element.attributes()) {
    const std::string_view name = attribute.name();
    if (name == "style")
      own = attribute.value();
    else if (name == "id")
      identifier = attribute.value();
    else if (const auto property = property_called(name))
      declared.set(*property, trimmed(attribute.value()));
  }
  if (!rules_.empty()) {
    const std::string_view type = local_name(element);
    const std::vector<int> classes = classes_of(element);
    for (const Rule& rule : rules_)
      if ((rule.type.empty() || rule.type == type) && (rule.identifier.empty() || rule.identifier == identifier) &&
          std::includes(classes.begin(), classes.end(), rule.classes.begin(), rule.classes.end()))
        for (const auto& [property, value] : *rule.values)
          declared.set(property, value);
  }
  declare(own, declared);
  return declared;
}

Style styled(const Declared& declared, const Style& parent) {
  Style style = parent;
  const auto given = [&](Property property) -> std::optional<std::string_view> {
    const std::string_view text = declared[property];
    return text.empty() || text == "inherit" ? std::nullopt : std::optional(text);
  };
  if (const auto text = given(Property::color))
    style.colour = *text;
  if (const auto text = given(Property::fill))
    style.fill = paint(*text, style.colour);
  if (const auto text = given(Property::stroke))
    style.stroke = paint(*text, style.colour);
  if (const auto text = given(Property::fill_opacity))
    style.fill_opacity = opacity(*text, 1);
  if (const auto text = given(Property::stroke_opacity))
    style.stroke_opacity = opacity(*text, 1);
  if (const auto text = given(Property::stroke_width); text)
    style.stroke_width = length(*text, 1).value_or(1);
  if (const auto text = given(Property::fill_rule))
    style.fill_rule = rule_of(*text);
  if (const auto text = given(Property::clip_rule))
    style.clip_rule = rule_of(*text);
  if (const auto text = given(Property::visibility))
    style.visible = *text == "visible";
  return style;
}

} // namespace fanwright::traced
