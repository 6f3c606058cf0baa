#include "sheets/stock_names.h"

#include <gtest/gtest.h>

using namespace fanwright::sheets;

namespace {

Stock stock(const std::string& text) {
  const auto result = stock_from(text, {"A4", {210, 297}, 6, 2});
  EXPECT_TRUE(std::holds_alternative<Stock>(result)) << text;
  return std::holds_alternative<Stock>(result) ? std::get<Stock>(result) : Stock{};
}

} // namespace

TEST(sheets, reads_stocks_as_makers_write_them) {
  EXPECT_DOUBLE_EQ(stock("A3").sheet.size.width_mm, 297); // ISO 216
  EXPECT_DOUBLE_EQ(stock("letter").sheet.size.height_mm, 279.4);
  EXPECT_DOUBLE_EQ(stock("305x306").sheet.size.height_mm, 306);
  EXPECT_DOUBLE_EQ(stock("8.5x13in").sheet.size.height_mm, 330.2); // 13 x 25.4
  const Stock priced = stock("A3@0.40#10");
  EXPECT_DOUBLE_EQ(priced.price, 0.40);
  EXPECT_EQ(priced.most, 10);
  EXPECT_DOUBLE_EQ(priced.sheet.margin_mm, 6);
  const Stock roll = stock("roll:24in@3");
  EXPECT_TRUE(roll.roll);
  EXPECT_DOUBLE_EQ(roll.sheet.size.height_mm, 609.6); // 24 x 25.4
}

TEST(sheets, refuses_stocks_it_does_not_understand) {
  for (const char* text : {"",      "A9",    "305",    "305x",    "x305",    "305x305cm", "-5x20",
                           "10x10", "A4@",   "A4@x",   "A4@inf",  "A4@nan",  "A4@1e10",   "A4#1.5",
                           "A4#-1", "roll:", "roll:9", "1e9x1e9", "nanxnan", "infx20",    "A4#99999999999999999999"})
    EXPECT_TRUE(std::holds_alternative<Refusal>(stock_from(text, {}))) << text;
}
