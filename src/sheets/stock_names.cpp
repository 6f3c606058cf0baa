#include "sheets/stock_names.h"

#include "sheets/job_check.h"

#include <charconv>
#include <optional>
#include <string>

namespace fanwright::sheets {

namespace {

constexpr double inch_mm = 25.4;
constexpr double longest_stretch_mm = 3000; // what a table or a machine takes (common practice, no source)
constexpr double least_mm = 20, most_mm = 5000;

std::optional<double> number(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !(value >= 0))
    return std::nullopt;
  return value;
}

/// Takes what follows `mark` off the end of the text.
std::optional<std::string_view> taken(std::string_view& text, char mark) {
  const std::size_t at = text.rfind(mark);
  if (at == std::string_view::npos)
    return std::nullopt;
  const std::string_view rest = text.substr(at + 1);
  text = text.substr(0, at);
  return rest;
}

double unit_taken(std::string_view& text) {
  if (text.size() > 2 && text.ends_with("in")) {
    text.remove_suffix(2);
    return inch_mm;
  }
  if (text.size() > 2 && text.ends_with("mm"))
    text.remove_suffix(2);
  return 1;
}

std::optional<double> length(std::string_view text) {
  const double unit = unit_taken(text);
  const auto value = number(text);
  if (!value || *value * unit < least_mm || *value * unit > most_mm)
    return std::nullopt;
  return *value * unit;
}

bool read_size(std::string_view text, Stock& stock) {
  constexpr std::string_view roll = "roll:";
  stock.sheet.name = std::string(text);
  if (text.starts_with(roll)) {
    const auto width = length(text.substr(roll.size()));
    stock.roll = true;
    stock.sheet.size = {longest_stretch_mm, width.value_or(0)};
    return width.has_value();
  }
  if (const auto size = paper::sheet_size(text)) {
    stock.sheet.size = *size;
    return true;
  }
  const double unit = unit_taken(text);
  const std::size_t cross = text.find('x');
  if (cross == std::string_view::npos)
    return false;
  const auto width = number(text.substr(0, cross)), height = number(text.substr(cross + 1));
  if (!width || !height || *width * unit < least_mm || *height * unit < least_mm || *width * unit > most_mm ||
      *height * unit > most_mm)
    return false;
  stock.sheet.size = {*width * unit, *height * unit};
  return true;
}

} // namespace

std::variant<Stock, Refusal> stock_from(std::string_view text, const Sheet& like) {
  Stock stock{like, false, 0, {}};
  std::string_view rest = text;
  bool understood = true;
  if (const auto most = taken(rest, '#')) {
    const auto value = number(*most);
    understood = value && *value <= 100'000 && *value == static_cast<double>(static_cast<int>(*value));
    stock.most = understood ? std::optional(static_cast<int>(*value)) : std::nullopt;
  }
  if (const auto price = taken(rest, '@')) {
    const auto value = number(*price);
    understood = understood && value && *value <= highest_price;
    stock.price = value.value_or(0);
  }
  if (!understood || !read_size(rest, stock))
    return Refusal{"The stock \"" + std::string(text) +
                   "\" is not understood; write a name (A0 to A6, B0 to B6, letter, legal, tabloid, 12x12in), a size "
                   "of 20 to 5000 mm "
                   "(305x305, 8.5x13in) or a roll (roll:610), then @PRICE and #NUMBER if you wish (A3@0.40#10)."};
  return stock;
}

} // namespace fanwright::sheets
