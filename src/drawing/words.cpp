#include "drawing/words.h"

#include "drawing/font.h"

#include <algorithm>
#include <cstddef>
#include <optional>

namespace fanwright::drawing {

namespace {

// Pango counts in 32-bit 1/1024 points, so a line must stay below 740 m: 4000 letters of 150 mm do.
constexpr double largest_size_mm = 150;
constexpr std::size_t most_bytes = 4000;

/// Measures lines of one size and weight; opening the font costs a thousand lines, so each thread keeps it.
class Measure {
public:
  Measure(double size_mm, bool bold) : size_mm_(std::min(size_mm, largest_size_mm)), bold_(bold) {
    static thread_local const std::optional<Font> font = open_font();
    if (font && size_mm > 0)
      layout_.reset(pango_layout_new(font->context.get()));
  }

  /// mm; `words` are printable.
  double operator()(std::string_view words) const {
    if (!layout_)
      return 0;
    set_line(layout_.get(), words, size_mm_, bold_);
    int width = 0, height = 0;
    pango_layout_get_size(layout_.get(), &width, &height);
    return static_cast<double>(width) / PANGO_SCALE / points_per_mm;
  }

private:
  Owned<PangoLayout> layout_;
  double size_mm_;
  bool bold_;
};

/// The largest count in 1..`most` for which `fits(count)` holds, given that it holds up to some count and not beyond;
/// 1 when none does. Doubles first, so that a long text costs no more than a short one.
template <typename Fits> std::size_t most_that_fit(std::size_t most, const Fits& fits) {
  std::size_t good = 1, bad = 2;
  while (bad <= most && fits(bad)) {
    good = bad;
    bad *= 2;
  }
  bad = std::min(bad, most + 1);
  while (bad - good > 1) {
    const std::size_t middle = good + (bad - good) / 2;
    (fits(middle) ? good : bad) = middle;
  }
  return good;
}

bool begins_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

/// Bytes of the characters at the front of `word` that fit; at least one character.
std::size_t front_that_fits(std::string_view word, const Measure& measure, double width_mm) {
  const auto whole_characters = [&](std::size_t bytes) {
    while (bytes > 0 && bytes < word.size() && !begins_character(word[bytes]))
      --bytes;
    return bytes;
  };
  std::size_t bytes = whole_characters(most_that_fit(word.size(), [&](std::size_t count) {
    return count <= most_bytes && measure(word.substr(0, whole_characters(count))) <= width_mm;
  }));
  if (bytes > 0)
    return bytes;
  do
    ++bytes;
  while (bytes < word.size() && !begins_character(word[bytes]));
  return bytes;
}

/// Where each word ends in the text.
std::vector<std::size_t> ends_of_words(std::string_view text) {
  std::vector<std::size_t> ends;
  for (std::size_t at = 0; at < text.size(); ++at)
    if (text[at] != ' ' && (at + 1 == text.size() || text[at + 1] == ' '))
      ends.push_back(at + 1);
  return ends;
}

void break_paragraph(std::string_view text, const Measure& measure, double width_mm, std::vector<std::string>& lines) {
  const std::vector<std::size_t> ends = ends_of_words(text);
  if (ends.empty())
    lines.emplace_back();
  std::size_t begin = text.find_first_not_of(' ');
  for (std::size_t word = 0; word < ends.size();) {
    const auto fits = [&](std::size_t count) {
      const std::size_t bytes = ends[word + count - 1] - begin;
      return bytes <= most_bytes && measure(text.substr(begin, bytes)) <= width_mm;
    };
    const std::size_t count = most_that_fit(ends.size() - word, fits);
    std::size_t end = ends[word + count - 1];
    if (count == 1 && !fits(1))
      end = begin + front_that_fits(text.substr(begin, end - begin), measure, width_mm);
    lines.emplace_back(text.substr(begin, end - begin));
    if (end == ends[word + count - 1])
      word += count;
    begin = text.find_first_not_of(' ', end);
  }
}

} // namespace

double words_width_mm(std::string_view words, double size_mm, bool bold) {
  return Measure(size_mm, bold)(printable(words.substr(0, most_bytes)));
}

std::vector<std::string> broken_into_lines(std::string_view words, double width_mm, double size_mm, bool bold) {
  const Measure measure(size_mm, bold);
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin <= words.size();) {
    const std::size_t end = std::min(words.find('\n', begin), words.size());
    break_paragraph(printable(words.substr(begin, end - begin)), measure, width_mm, lines);
    begin = end + 1;
  }
  return lines;
}

} // namespace fanwright::drawing
