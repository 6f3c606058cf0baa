#include "traced/wishes.h"

#include <charconv>

namespace fanwright::traced {
namespace {

/// Takes a number and the mark that must follow it ('\0': the end) off the front.
bool take(std::string_view& text, char mark, double& value) {
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  text.remove_prefix(static_cast<std::size_t>(result.ptr - text.data()));
  if (result.ec != std::errc{} || (mark == '\0' ? !text.empty() : text.empty() || text.front() != mark))
    return false;
  if (mark != '\0')
    text.remove_prefix(1);
  return true;
}

std::optional<KnownDistance> distance_in(std::string_view text) {
  KnownDistance known;
  const bool whole = take(text, ',', known.from_x) && take(text, ',', known.from_y) && take(text, ',', known.to_x) &&
                     take(text, '=', known.to_y) && take(text, '\0', known.length_mm);
  return whole ? std::optional(known) : std::nullopt;
}

} // namespace

std::variant<Wishes, std::string> wishes_from(const WishWords& words) {
  Wishes wishes;
  const auto length = [&](const std::string& word) -> std::optional<double> {
    double value = 0;
    std::string_view text = word;
    return take(text, '\0', value) ? std::optional(value * words.unit_mm) : std::nullopt;
  };
  for (const auto& [word, wish] : {std::pair{&words.height, &wishes.height_mm}, {&words.width, &wishes.width_mm}})
    if (!word->empty() && !(*wish = length(*word)))
      return "'" + word->substr(0, 40) + "' is no length; write a number like 180.";
  if (!words.tolerance.empty()) {
    const auto tolerance = length(words.tolerance);
    if (!tolerance)
      return "'" + words.tolerance.substr(0, 40) + "' is no tolerance; write a number like 0.2.";
    wishes.tolerance_mm = *tolerance;
  }
  if (!words.between.empty()) {
    wishes.distance = distance_in(words.between);
    if (!wishes.distance)
      return "'" + words.between.substr(0, 80) +
             "' is no known distance: write two places and how far apart they are, like 120,80,120,960=150.";
    wishes.distance->length_mm *= words.unit_mm;
  }
  if (!words.drawn.empty() && words.drawn != "whole" && words.drawn != "half")
    return std::string("A drawing shows a \"whole\" figure or \"half\" of one.");
  if (!words.drawn.empty())
    wishes.shown = words.drawn == "half" ? Shown::half : Shown::whole;
  if (!words.side.empty() && words.side != "left" && words.side != "right" && words.side != "mean")
    return std::string("Of a figure the \"left\" side can be taken, the \"right\" one or their \"mean\".");
  if (!words.side.empty())
    wishes.side = words.side == "left" ? Side::left : words.side == "right" ? Side::right : Side::mean;
  return wishes;
}

} // namespace fanwright::traced
