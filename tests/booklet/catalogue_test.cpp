#include "booklet/catalogue.h"

#include "booklet/booklet.h"
#include "booklet/catalogue_texts.h"
#include "booklet/step_block.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace fanwright::booklet {
namespace {

std::vector<Message> all_messages() {
  std::vector<Message> messages;
  for (std::size_t i = 0; i < message_count; ++i)
    messages.push_back(static_cast<Message>(i));
  return messages;
}

std::set<std::string> names_in(std::string_view text) {
  std::set<std::string> names;
  for (const TextPlace& place : places_in(text))
    names.insert(place.name);
  return names;
}

TEST(booklet, every_language_says_everything_with_the_same_values) {
  const Language english = Language::of("en");
  for (const std::string_view code : languages()) {
    const Language language = Language::of(code);
    for (const Message message : all_messages()) {
      const std::string_view text = language.text(message);
      SCOPED_TRACE(std::string(code) + ": \"" + std::string(english.text(message)) + "\", message " +
                   std::to_string(static_cast<int>(message)));
      EXPECT_FALSE(text.empty());
      EXPECT_EQ(names_in(text), names_in(english.text(message)));
    }
  }
}

TEST(booklet, no_language_gives_a_text_twice) {
  for (const auto& texts :
       {std::pair{english_labels(), english_guidance()}, std::pair{german_labels(), german_guidance()}}) {
    std::multiset<Message> given;
    for (const auto part : {texts.first, texts.second})
      for (const MessageText& entry : part)
        given.insert(entry.message);
    for (const Message message : all_messages())
      EXPECT_EQ(given.count(message), 1U) << "message " << static_cast<int>(message);
  }
}

TEST(booklet, every_plural_has_all_forms_of_its_language) {
  for (const std::string_view code : languages()) {
    const Language language = Language::of(code);
    for (const Message message : all_messages())
      for (const TextPlace& place : places_in(language.text(message))) {
        const bool plain = place.forms.empty();
        EXPECT_TRUE(plain || place.forms.size() == language.plural_forms()) << code << ": " << language.text(message);
      }
  }
}

TEST(booklet, every_text_has_matching_braces) {
  for (const std::string_view code : languages())
    for (const Message message : all_messages()) {
      const std::string_view text = Language::of(code).text(message);
      EXPECT_EQ(std::count(text.begin(), text.end(), '{'), std::count(text.begin(), text.end(), '}')) << text;
    }
}

TEST(booklet, no_place_holds_another) {
  for (const std::string_view code : languages()) {
    const Language language = Language::of(code);
    for (const Message message : all_messages())
      for (bool inside = false; const char letter : language.text(message)) {
        EXPECT_FALSE(letter == '{' && inside) << language.text(message);
        inside = letter == '{' || (inside && letter != '}');
      }
  }
}

TEST(booklet, words_follow_their_number) {
  const Values one = {{"count", 1}}, many = {{"count", 46}}, none = {{"count", 0}};
  EXPECT_EQ(Language::of("en").say(Message::leaf_count, one), "1 leaf");
  EXPECT_EQ(Language::of("en").say(Message::leaf_count, many), "46 leaves");
  EXPECT_EQ(Language::of("en").say(Message::leaf_count, none), "0 leaves");
  EXPECT_EQ(Language::of("de").say(Message::leaf_count, one), "1 Blatt");
  EXPECT_EQ(Language::of("de").say(Message::leaf_count, many), "46 Blätter");
}

TEST(booklet, numbers_are_written_as_the_language_writes_them) {
  const std::string space = "\u202f";
  EXPECT_EQ(Language::of("en").measure(0.165, 2, "mm"), "0.17" + space + "mm");
  EXPECT_EQ(Language::of("de").measure(12.25, 1, "g"), "12,2" + space + "g");
  EXPECT_EQ(Language::of("de").number(1234.5, 2), "1234,50");
  EXPECT_EQ(Language::of("en").with_spread(139.7, 1.3, "mm"), "140" + space + "±" + space + "2" + space + "mm");
  EXPECT_EQ(Language::of("en").with_spread(60.2, 0.1, "mm"), "60" + space + "±" + space + "1" + space + "mm");
}

TEST(booklet, times_are_told_in_steps_of_five_minutes_from_an_hour_on) {
  const std::string space = "\u202f";
  EXPECT_EQ(Language::of("en").duration(0), "0" + space + "min");
  EXPECT_EQ(Language::of("en").duration(47), "47" + space + "min");
  EXPECT_EQ(Language::of("en").duration(59.6), "1" + space + "h");
  EXPECT_EQ(Language::of("de").duration(133), "2" + space + "h" + space + "15" + space + "min");
}

TEST(booklet, every_part_of_a_figure_has_its_own_name) {
  const Language english = Language::of("en");
  for (const auto& [part, name] :
       {std::pair{Part::sheet, "sheet"}, std::pair{Part::knife, "knife"}, std::pair{Part::bone_folder, "bone folder"},
        std::pair{Part::outer_face, "outer face"}, std::pair{Part::between_row, "between row"},
        std::pair{Part::stencil, "stencil"}, std::pair{Part::straight_edge, "straight edge"},
        std::pair{Part::parting_sheet, "baking paper"}, std::pair{Part::last_leaf, "last leaf"},
        std::pair{Part::clip, "clip"}, std::pair{Part::stuck_cell, "stuck cell"}, std::pair{Part::thread, "thread"},
        std::pair{Part::open_edge, "open edge"}, std::pair{Part::sun, "no sun"}})
    EXPECT_EQ(english.text(name_of_part(part)), name);
}

TEST(booklet, an_unknown_language_is_told_in_english) { EXPECT_EQ(Language::of("xx").code(), "en"); }

TEST(booklet, a_value_that_is_not_given_leaves_its_place_empty) {
  EXPECT_EQ(Language::of("en").say(Message::cover_version), "Version ");
}

} // namespace
} // namespace fanwright::booklet
