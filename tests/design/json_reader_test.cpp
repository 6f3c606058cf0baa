#include "design/json_reader.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <string_view>

namespace fanwright::design {
namespace {

Refusal refusal_of(std::string_view text) {
  const auto read = read_json(text);
  const auto* refusal = std::get_if<Refusal>(&read);
  return refusal != nullptr ? *refusal : Refusal{"accepted", ""};
}

TEST(design, names_the_line_and_column_of_a_syntax_error) {
  EXPECT_EQ(refusal_of("").where, "line 1, column 1");
  EXPECT_EQ(refusal_of("{").where, "line 1, column 2");
  EXPECT_EQ(refusal_of("{\n  \"a\": 1,\n}").where, "line 3, column 1");
  EXPECT_EQ(refusal_of("{\"a\": NaN}").where, "line 1, column 7");
  EXPECT_EQ(refusal_of("{\"\xC3\xA9\": ?}").where, "line 1, column 7") << "columns count characters, not bytes";
}

TEST(design, says_what_is_wrong_with_the_text) {
  EXPECT_NE(refusal_of("{\"a\": NaN}").sentence.find("NaN"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": Infinity}").sentence.find("Infinity"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": 1,}").sentence.find("comma too many"), std::string::npos);
  EXPECT_NE(refusal_of("{ // pear\n}").sentence.find("comments"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": 1").sentence.find("ends too early"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": 1e999}").sentence.find("too large"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": \"\xFF\"}").sentence.find("UTF-8"), std::string::npos);
  EXPECT_NE(refusal_of("  \n ").sentence.find("empty"), std::string::npos);
}

TEST(design, refuses_zero_bytes_even_after_the_end) {
  using namespace std::string_view_literals;
  EXPECT_EQ(refusal_of("{}\n\0"sv).where, "line 2, column 1");
  EXPECT_EQ(refusal_of("{\"a\": \"\0\"}"sv).where, "line 1, column 8");
}

TEST(design, refuses_a_key_given_twice) {
  const Refusal refusal = refusal_of(R"({"rows": {"width": 3, "count": 5, "width": 3}})");
  EXPECT_EQ(refusal.where, "/rows/width");
  EXPECT_NE(refusal.sentence.find("twice"), std::string::npos);
}

TEST(design, refuses_deep_nesting_without_following_it) {
  const std::string nested = std::string(100000, '[') + std::string(100000, ']');
  EXPECT_NE(refusal_of(nested).sentence.find("nested"), std::string::npos);
  EXPECT_EQ(refusal_of(std::string(most_depth, '[') + std::string(most_depth, ']')).where, "accepted");
}

TEST(design, refuses_a_text_larger_than_its_bound) {
  EXPECT_NE(refusal_of(std::string(most_bytes + 1, ' ')).sentence.find("1 MiB"), std::string::npos);
}

TEST(design, shows_foreign_text_on_one_line) {
  EXPECT_EQ(in_quotes("a\nb\tc\x7F"), "\"a?b?c?\"");
  EXPECT_EQ(in_quotes("\xE2\x80\xAE"), "\"?\"") << "no turning of the writing direction";
  EXPECT_EQ(in_quotes("\xC3\xA9"), "\"\xC3\xA9\"");
  EXPECT_EQ(in_quotes("\xC3"), "\"?\"");
  EXPECT_LT(in_quotes(std::string(100000, 'x')).size(), 100U);
}

TEST(design, writes_pointers_as_rfc_6901_asks) {
  // RFC 6901, section 3: ~ becomes ~0 and / becomes ~1.
  EXPECT_EQ(pointer_to("/a", "m~n/o"), "/a/m~0n~1o");
}

RC_GTEST_PROP(design, any_bytes_end_in_a_value_or_one_line, (const std::string& bytes)) {
  const auto read = read_json(bytes);
  if (const auto* refusal = std::get_if<Refusal>(&read)) {
    RC_ASSERT(!refusal->sentence.empty());
    RC_ASSERT(refusal->sentence.find('\n') == std::string::npos);
  }
}

} // namespace
} // namespace fanwright::design
