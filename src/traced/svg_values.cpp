#include "traced/svg_values.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <string>

namespace fanwright::traced {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_space(text.back()))
    text.remove_suffix(1);
  return text;
}

struct Unit {
  std::string_view name;
  double pixels;
  bool physical;
};
/// CSS Values 3, section 6.2; em is taken at the initial font size of 16 px, ex at half of that.
constexpr std::array<Unit, 10> units = {{{"px", 1, false},
                                         {"mm", 96 / 25.4, true},
                                         {"cm", 96 / 2.54, true},
                                         {"in", 96, true},
                                         {"pt", 96.0 / 72, true},
                                         {"pc", 16, true},
                                         {"Q", 96 / 101.6, true},
                                         {"em", 16, false},
                                         {"rem", 16, false},
                                         {"ex", 8, false}}};

const Unit* unit_of(std::string_view name) {
  const auto found = std::find_if(units.begin(), units.end(), [&](const Unit& unit) { return unit.name == name; });
  return found == units.end() ? nullptr : &*found;
}

/// One transform by its name; the number of numbers is checked.
std::optional<Matrix> named_transform(std::string_view name, const std::vector<double>& v) {
  const auto radians = [&](std::size_t k) { return v[k] * std::numbers::pi / 180; };
  const std::size_t n = v.size();
  if (name == "matrix" && n == 6)
    return Matrix{v[0], v[1], v[2], v[3], v[4], v[5]};
  if (name == "translate" && (n == 1 || n == 2))
    return Matrix{1, 0, 0, 1, v[0], n == 2 ? v[1] : 0};
  if (name == "scale" && (n == 1 || n == 2))
    return Matrix{v[0], 0, 0, n == 2 ? v[1] : v[0], 0, 0};
  if (name == "skewX" && n == 1)
    return Matrix{1, 0, std::tan(radians(0)), 1, 0, 0};
  if (name == "skewY" && n == 1)
    return Matrix{1, std::tan(radians(0)), 0, 1, 0, 0};
  if (name == "rotate" && (n == 1 || n == 3)) {
    const double c = std::cos(radians(0)), s = std::sin(radians(0));
    const Matrix turn{c, s, -s, c, 0, 0};
    return n == 1 ? turn : Matrix{1, 0, 0, 1, v[1], v[2]} * turn * Matrix{1, 0, 0, 1, -v[1], -v[2]};
  }
  return std::nullopt;
}

/// Share of the free room that lies before the box: Min, Mid or Max.
double alignment(std::string_view word) { return word == "Min" ? 0 : word == "Max" ? 1 : 0.5; }

} // namespace

Matrix operator*(const Matrix& o, const Matrix& i) {
  return {o.a * i.a + o.c * i.b, o.b * i.a + o.d * i.b,       o.a * i.c + o.c * i.d,
          o.b * i.c + o.d * i.d, o.a * i.e + o.c * i.f + o.e, o.b * i.e + o.d * i.f + o.f};
}

leaf::Point operator*(const Matrix& m, leaf::Point p) {
  return {m.a * p.x + m.c * p.z + m.e, m.b * p.x + m.d * p.z + m.f};
}

void skip_separator(std::string_view& text) {
  bool comma = false;
  while (!text.empty() && (is_space(text.front()) || (text.front() == ',' && !comma))) {
    comma = comma || text.front() == ',';
    text.remove_prefix(1);
  }
}

std::optional<double> take_number(std::string_view& text) {
  std::string_view rest = text;
  if (!rest.empty() && rest.front() == '+')
    rest.remove_prefix(1);
  double value = 0;
  // from_chars would also read "inf" and "nan"
  const std::size_t first = !rest.empty() && rest.front() == '-' ? 1 : 0;
  if (rest.size() <= first || (rest[first] != '.' && (rest[first] < '0' || rest[first] > '9')))
    return std::nullopt;
  const auto result = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (result.ec != std::errc{} || !std::isfinite(value))
    return std::nullopt;
  text = rest.substr(static_cast<std::size_t>(result.ptr - rest.data()));
  return value;
}

std::vector<double> numbers(std::string_view text) {
  std::vector<double> found;
  skip_separator(text);
  while (const auto value = take_number(text)) {
    found.push_back(*value);
    skip_separator(text);
  }
  return found;
}

std::optional<double> length(std::string_view text, double whole) {
  text = trimmed(text);
  // The e of "2em" and "3ex" is no exponent; from_chars leaves it as no digit follows.
  const auto value = take_number(text);
  if (!value)
    return std::nullopt;
  if (text.empty())
    return value;
  if (text == "%")
    return *value / 100 * whole;
  const Unit* unit = unit_of(text);
  return unit == nullptr ? std::nullopt : std::optional(*value * unit->pixels);
}

bool is_physical(std::string_view text) {
  text = trimmed(text);
  if (!take_number(text))
    return false;
  const Unit* unit = unit_of(text);
  return unit != nullptr && unit->physical;
}

std::optional<Matrix> transform(std::string_view text) {
  Matrix all;
  text = trimmed(text);
  if (text == "none")
    return all;
  while (!text.empty()) {
    const std::size_t open = text.find('(');
    const std::size_t close = text.find(')');
    if (open == std::string_view::npos || close == std::string_view::npos || close < open)
      return std::nullopt;
    std::string inside(text.substr(open + 1, close - open - 1));
    for (const std::string_view word : {"deg", "px"}) // as CSS writes them
      for (std::size_t at = inside.find(word); at != std::string::npos; at = inside.find(word))
        inside.replace(at, word.size(), " ");
    const auto one = named_transform(trimmed(text.substr(0, open)), numbers(inside));
    if (!one)
      return std::nullopt;
    all = all * *one;
    text.remove_prefix(close + 1);
    skip_separator(text);
  }
  return all;
}

std::optional<ViewBox> view_box(std::string_view text) {
  const auto v = numbers(text);
  if (v.size() != 4 || !(v[2] > 0) || !(v[3] > 0))
    return std::nullopt;
  return ViewBox{v[0], v[1], v[2], v[3]};
}

Matrix fit_into(const ViewBox& box, double width, double height, std::string_view preserve) {
  preserve = trimmed(preserve);
  double sx = width / box.width, sy = height / box.height;
  if (preserve.substr(0, 4) == "none")
    return {sx, 0, 0, sy, -box.x * sx, -box.y * sy};
  const bool slice = preserve.find("slice") != std::string_view::npos;
  sx = sy = slice ? std::max(sx, sy) : std::min(sx, sy);
  const bool named = preserve.size() >= 8 && preserve.front() == 'x';
  const double along_x = named ? alignment(preserve.substr(1, 3)) : 0.5;
  const double along_y = named ? alignment(preserve.substr(5, 3)) : 0.5;
  return {sx,
          0,
          0,
          sy,
          -box.x * sx + along_x * (width - box.width * sx),
          -box.y * sy + along_y * (height - box.height * sy)};
}

} // namespace fanwright::traced
