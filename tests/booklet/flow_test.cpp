#include "booklet/flow.h"
#include "booklet/look.h"
#include "booklet/table.h"

#include <gtest/gtest.h>

namespace fanwright::booklet {
namespace {

Look plain_look() { return look_of(PageSize::a4, "#c9a227"); }

/// A block that can be found again by its word.
Block named(const std::string& word, double height_mm, bool keeps_with_next = false) {
  Block block;
  block.height_mm = height_mm;
  block.keeps_with_next = keeps_with_next;
  put_words(block, word, 0, 0, 100, body_type, {});
  return block;
}

std::string words_on(const drawing::Page& page) {
  std::string words;
  for (const drawing::Item& item : page.items)
    words += std::get<drawing::Text>(item).words;
  return words;
}

TEST(booklet, blocks_fill_pages_in_order) {
  const Look look = plain_look();
  const double half = look.depth_mm() / 2;
  const auto pages = set_on_pages({named("a", half), named("b", half), named("c", half)}, look);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(words_on(pages[0]), "ab");
  EXPECT_EQ(words_on(pages[1]), "c");
}

TEST(booklet, a_heading_goes_to_the_next_page_with_what_it_heads) {
  const Look look = plain_look();
  const auto pages = set_on_pages({named("a", look.depth_mm() - 20), named("h", 10, true), named("b", 15)}, look);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(words_on(pages[0]), "a");
  EXPECT_EQ(words_on(pages[1]), "hb");
}

TEST(booklet, blocks_kept_together_that_no_page_can_hold_are_parted) {
  const Look look = plain_look();
  const double most = look.depth_mm() * 0.7;
  const auto pages = set_on_pages({named("a", most, true), named("b", most, true), named("c", most)}, look);
  EXPECT_EQ(pages.size(), 3U);
}

TEST(booklet, a_block_higher_than_the_page_has_a_page_to_itself) {
  const Look look = plain_look();
  const auto pages = set_on_pages({named("a", 10), named("b", look.depth_mm() + 50), named("c", 10)}, look);
  ASSERT_EQ(pages.size(), 3U);
  EXPECT_EQ(words_on(pages[1]), "b");
}

TEST(booklet, a_paragraph_leaves_no_single_line_on_either_page) {
  const Look look = plain_look();
  std::string words;
  for (int i = 0; i < 120; ++i)
    words += "leaf ";
  const auto lines = paragraph(look, words).size();
  ASSERT_GE(lines, 4U);
  const double whole = body_type.line_mm * static_cast<double>(lines);
  for (double first = look.depth_mm() - whole; first < look.depth_mm(); first += 1) {
    Blocks blocks = {named("a", first)};
    append(blocks, paragraph(look, words));
    const auto pages = set_on_pages(blocks, look);
    ASSERT_EQ(pages.size(), 2U);
    const std::size_t before = pages[0].items.size() - 1;
    EXPECT_NE(before, 1U);
    EXPECT_NE(lines - before, 1U);
  }
}

TEST(booklet, no_blocks_no_pages) { EXPECT_TRUE(set_on_pages({}, plain_look()).empty()); }

// Contrast ratios of Web Content Accessibility Guidelines 2.1: 21 for black on white by its formula; 4.54 for #767676,
// the lightest grey that passes 4.5 (from memory).
TEST(booklet, contrast_follows_the_guidelines) {
  EXPECT_NEAR(contrast({0, 0, 0}, {1, 1, 1}), 21.0, 1e-9);
  EXPECT_NEAR(contrast({1, 1, 1}, {0, 0, 0}), 21.0, 1e-9);
  EXPECT_NEAR(contrast(colour_of("#767676"), {1, 1, 1}), 4.54, 0.005);
}

TEST(booklet, the_accent_can_be_read_whatever_the_paper) {
  for (const char* paper : {"#ffffff", "#ffff00", "#c9a227", "#8c7a9e", "#000000", "#00ffff"}) {
    const Look look = look_of(PageSize::a4, paper);
    EXPECT_GE(contrast(look.accent, {1, 1, 1}), 4.5) << paper;
    EXPECT_GE(contrast(look.accent, look.tint), 4.5) << paper;
    EXPECT_GE(contrast(look.thin_ink, {1, 1, 1}), 4.5);
  }
}

TEST(booklet, a_dark_paper_gives_its_own_colour_as_accent) {
  const drawing::Colour dark = colour_of("#3f2b4f");
  const drawing::Colour accent = readable(dark);
  EXPECT_DOUBLE_EQ(accent.red, dark.red);
  EXPECT_DOUBLE_EQ(accent.blue, dark.blue);
}

TEST(booklet, a_short_table_stays_on_one_page) {
  const Look look = plain_look();
  Table table{{{"Round", 1}, {"Packets", 2}}, {}};
  for (int i = 0; i < 8; ++i)
    table.rows.push_back({std::to_string(i), "packets"});
  Blocks blocks = {named("a", look.depth_mm() - 20)};
  append(blocks, table_blocks(look, table));
  const auto pages = set_on_pages(blocks, look);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(words_on(pages[0]), "a");
}

} // namespace
} // namespace fanwright::booklet
