#include "drawing/dxf_tags.h"

#include "drawing/decimal.h"
#include "drawing/font.h"

namespace fanwright::drawing {

namespace {

std::string four_digits(std::uint32_t letter) {
  const std::string digits = hexadecimal(letter);
  return std::string(4 - digits.size(), '0') + digits;
}

/// A code that readers of TEXT take for the start of another one must be spelt out.
bool stands_for_itself(std::uint32_t letter) {
  return letter < 0x7f && letter != '\\' && letter != '^' && letter != '%';
}

} // namespace

std::string hexadecimal(std::uint64_t number) {
  std::string digits;
  do {
    digits.insert(digits.begin(), "0123456789ABCDEF"[number % 16]);
    number /= 16;
  } while (number > 0);
  return digits;
}

std::string dxf_words(std::string_view words) {
  const std::string valid = printable(words);
  std::string text;
  for (const char* letter = valid.c_str(); *letter != '\0'; letter = g_utf8_next_char(letter)) {
    constexpr std::uint32_t white_square = 0x25a1, last_of_four_digits = 0xffff;
    const std::uint32_t code = g_utf8_get_char(letter);
    if (stands_for_itself(code))
      text += static_cast<char>(code);
    else
      text += "\\U+" + four_digits(code > last_of_four_digits ? white_square : code);
  }
  return text;
}

Tags& Tags::text(int code, std::string_view value) {
  const std::string digits = std::to_string(code);
  bytes_ += std::string(digits.size() < 3 ? 3 - digits.size() : 0, ' ') + digits + "\n";
  bytes_ += value;
  bytes_ += "\n";
  return *this;
}

Tags& Tags::whole(int code, long value) { return text(code, std::to_string(value)); }

Tags& Tags::real(int code, double value) {
  const std::string digits = decimal(value, 9); // a nanometre in a thousand; arcs are rebuilt from it
  return text(code, digits.find('.') == std::string::npos ? digits + ".0" : digits);
}

Tags& Tags::point(int code, const Point& point) { return real(code, point.x).real(code + 10, point.y); }

Tags& Tags::point3(int code, const Point& where) { return point(code, where).real(code + 20, 0); }

Tags& Tags::append(const Tags& other) {
  bytes_ += other.bytes_;
  return *this;
}

} // namespace fanwright::drawing
