// Which of the values that are given for one property holds: CSS 2.2, section 6.4.
#include "traced/svg_style.h"

#include <gtest/gtest.h>

namespace fanwright::traced {
namespace {

/// The fill of <path>, written with these attributes, under the sheet.
std::string fill(const std::string& sheet_text, const std::string& attributes) {
  StyleSheet sheet;
  sheet.add(sheet_text);
  pugi::xml_document document;
  EXPECT_TRUE(document.load_string(("<svg:path " + attributes + "/>").c_str()));
  return std::string(sheet.of(document.document_element())[Property::fill]);
}

TEST(svg_style, rules_go_over_attributes_and_the_style_attribute_over_both) {
  EXPECT_EQ(fill("", "fill=' red '"), "red");
  EXPECT_EQ(fill("path { fill: green }", "fill='red'"), "green");
  EXPECT_EQ(fill("path{fill:green}", "fill='red' style='stroke:none; fill : blue ;'"), "blue");
  EXPECT_EQ(fill("circle{fill:green}", ""), "");
}

TEST(svg_style, identifiers_go_over_classes_over_types_over_all_and_later_over_earlier) {
  const std::string all = "#a{fill:one} .b.c{fill:two} .b{fill:three} path{fill:four} *{fill:five}";
  EXPECT_EQ(fill(all, "class='c b' id='a'"), "one");
  EXPECT_EQ(fill(all, "class=' c  b '"), "two");
  EXPECT_EQ(fill(all, "class='b'"), "three");
  EXPECT_EQ(fill(all, "class='c'"), "four");
  EXPECT_EQ(fill("*{fill:five}", ""), "five");
  EXPECT_EQ(fill(".b{fill:one}.c{fill:two}", "class='c b'"), "two");
  EXPECT_EQ(fill("path.b{fill:one}.b{fill:two}", "class='b'"), "one");
}

TEST(svg_style, selectors_share_a_rule_and_what_is_not_read_is_told) {
  EXPECT_EQ(fill("circle, .b ,path.c{fill:one;/* ; */fill:two}", "class='c'"), "two");
  StyleSheet sheet;
  EXPECT_TRUE(sheet.add(".b{fill:one}"));
  EXPECT_FALSE(sheet.add("g .b{fill:one}"));
  EXPECT_FALSE(sheet.add("@media print{.b{fill:one}}"));
}

TEST(svg_style, a_thousand_rules_are_read_and_more_are_told) {
  StyleSheet sheet;
  std::string rules;
  for (int k = 0; k < 1'000; ++k)
    rules += ".c" + std::to_string(k) + "{fill:one}";
  EXPECT_TRUE(sheet.add(rules));
  EXPECT_FALSE(sheet.add(".more{fill:two}"));
}

} // namespace
} // namespace fanwright::traced
