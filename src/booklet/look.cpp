// Contrast after Web Content Accessibility Guidelines 2.1 (relative luminance, contrast ratio).
#include "booklet/look.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace fanwright::booklet {

namespace {

constexpr double tint_share = 0.10; ///< of the accent in grounds; text on it keeps nearly its contrast on white

double linear(double channel) {
  return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const drawing::Colour& colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

drawing::Colour times(const drawing::Colour& colour, double factor) {
  return {colour.red * factor, colour.green * factor, colour.blue * factor};
}

drawing::Colour mixed_with_white(const drawing::Colour& colour, double share) {
  const auto mix = [share](double channel) { return 1.0 - share * (1.0 - channel); };
  return {mix(colour.red), mix(colour.green), mix(colour.blue)};
}

} // namespace

double contrast(const drawing::Colour& a, const drawing::Colour& b) {
  const auto [darker, lighter] = std::minmax({luminance(a), luminance(b)});
  return (lighter + 0.05) / (darker + 0.05);
}

drawing::Colour readable(const drawing::Colour& colour, double least) {
  const drawing::Colour white{1, 1, 1};
  if (contrast(colour, white) >= least)
    return colour;
  double readable_factor = 0, pale_factor = 1;
  for (int halving = 0; halving < 40; ++halving) {
    const double factor = (readable_factor + pale_factor) / 2;
    (contrast(times(colour, factor), white) >= least ? readable_factor : pale_factor) = factor;
  }
  return times(colour, readable_factor);
}

drawing::Colour colour_of(std::string_view hexadecimal) {
  if (hexadecimal.size() != 7 || hexadecimal.front() != '#')
    return {};
  const auto channel = [hexadecimal](std::size_t at) {
    int value = 0;
    std::from_chars(hexadecimal.data() + at, hexadecimal.data() + at + 2, value, 16);
    return value / 255.0;
  };
  return {channel(1), channel(3), channel(5)};
}

Look look_of(PageSize page, std::string_view paper_colour) {
  Look look;
  if (page == PageSize::letter) {
    look.width_mm = 215.9;
    look.height_mm = 279.4;
  }
  // Text in the accent also stands on the tinted ground; the higher demand leaves 4.5 there too.
  look.accent = readable(colour_of(paper_colour), 5.5);
  look.tint = mixed_with_white(look.accent, tint_share);
  return look;
}

} // namespace fanwright::booklet
