#include "drawing/words.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstdlib>

using namespace fanwright::drawing;

namespace {

const std::string sentence =
    "The two halves of each leaf are glued to each other along the inside rows, then pressed flat.";

std::string joined(const std::vector<std::string>& lines, const std::string& between) {
  std::string text;
  for (const std::string& line : lines)
    text += (text.empty() ? "" : between) + line;
  return text;
}

} // namespace

TEST(drawing, words_are_as_wide_as_the_font_says) {
  // DejaVu Sans 2.37, hmtx table: advance of n 1298, of W 2025, of 0 1303, of bold n 1458; 2048 units to the em.
  EXPECT_NEAR(words_width_mm("n", 10), 10 * 1298 / 2048.0, 0.001);
  EXPECT_NEAR(words_width_mm("W", 10), 10 * 2025 / 2048.0, 0.001);
  EXPECT_NEAR(words_width_mm("0000", 5), 4 * 5 * 1303 / 2048.0, 0.002);
  EXPECT_NEAR(words_width_mm("n", 10, true), 10 * 1458 / 2048.0, 0.001);
  EXPECT_EQ(words_width_mm("", 10), 0);
}

TEST(drawing, width_grows_with_size) {
  const double at_two = words_width_mm(sentence, 2), at_four = words_width_mm(sentence, 4);
  EXPECT_NEAR(at_four, 2 * at_two, 0.01);
  EXPECT_EQ(words_width_mm(sentence, 0), 0);
  EXPECT_EQ(words_width_mm(sentence, -3), 0);
}

TEST(drawing, width_is_measured_whatever_the_machine_prefers) {
  ASSERT_EQ(setenv("FONTCONFIG_FILE", "/nonexistent/fonts.conf", 1), 0);
  EXPECT_NEAR(words_width_mm("n", 10), 10 * 1298 / 2048.0, 0.001);
  unsetenv("FONTCONFIG_FILE");
}

TEST(drawing, sentences_are_broken_at_spaces_and_line_feeds) {
  EXPECT_EQ(broken_into_lines("glue press open", 15, 3), (std::vector<std::string>{"glue", "press", "open"}));
  EXPECT_EQ(broken_into_lines("glue press open", 300, 3), (std::vector<std::string>{"glue press open"}));
  EXPECT_EQ(broken_into_lines("a\n\nb", 300, 3), (std::vector<std::string>{"a", "", "b"}));
  EXPECT_EQ(broken_into_lines("  a   b  ", 300, 3), (std::vector<std::string>{"a   b"}));
  EXPECT_EQ(broken_into_lines("", 300, 3), (std::vector<std::string>{""}));
  EXPECT_EQ(broken_into_lines("\n", 300, 3), (std::vector<std::string>{"", ""}));
  EXPECT_EQ(broken_into_lines("160\xc2\xa0g glue", 10, 3), (std::vector<std::string>{"160\xc2\xa0g", "glue"}));
}

TEST(drawing, a_word_too_wide_alone_is_broken_between_characters) {
  const std::vector<std::string> lines = broken_into_lines(std::string(25, 'n') + " end", 64, 10);
  EXPECT_EQ(lines, (std::vector<std::string>{std::string(10, 'n'), std::string(10, 'n'), "nnnnn end"}));
  // Two bytes a letter: no line may hold half a letter.
  EXPECT_EQ(broken_into_lines("\xc3\xa4\xc3\xa4\xc3\xa4", 0.1, 10),
            (std::vector<std::string>{"\xc3\xa4", "\xc3\xa4", "\xc3\xa4"}));
}

TEST(drawing, endless_words_and_odd_widths_are_taken) {
  const std::string endless(200000, 'x');
  const std::vector<std::string> lines = broken_into_lines(endless, 180, 3);
  EXPECT_EQ(joined(lines, ""), endless);
  EXPECT_EQ(broken_into_lines("ab c", -1, 3).size(), 3u);
  EXPECT_EQ(broken_into_lines(std::string("\xff\xfe\x01\0z", 5), 100, 3).size(), 1u);
  EXPECT_EQ(broken_into_lines("ab c", 100, 1e9).size(), 3u);
}

RC_GTEST_PROP(drawing, broken_lines_keep_every_word_and_fit, ()) {
  const auto letter = rc::gen::element('a', 'W', 'i', '.', '-', ' ', 'm', '7');
  std::string text = *rc::gen::container<std::string>(letter);
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  const double width = *rc::gen::inRange(12, 90), size = *rc::gen::inRange(2, 8);
  const bool bold = *rc::gen::arbitrary<bool>();
  const std::vector<std::string> lines = broken_into_lines(text, width, size, bold);
  RC_ASSERT(!lines.empty());
  std::string kept = joined(lines, ""), wanted = text;
  std::erase(kept, ' ');
  std::erase(wanted, ' ');
  RC_ASSERT(kept == wanted);
  for (const std::string& line : lines)
    RC_ASSERT(words_width_mm(line, size, bold) <= width);
  for (std::size_t i = 1; i < lines.size(); ++i) { // none is broken too early
    const std::string next = lines[i].substr(0, lines[i].find(' '));
    RC_ASSERT(words_width_mm(lines[i - 1] + " " + next, size, bold) > width ||
              words_width_mm(lines[i - 1] + next, size, bold) > width);
  }
}
