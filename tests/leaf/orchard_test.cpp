// The Orchard examples as the maker gets them.
#include "leaf/contour.h"
#include "leaf/leaf.h"

#include <gtest/gtest.h>

#include <fstream>
#include <numbers>
#include <sstream>

namespace fanwright::leaf {
namespace {

std::string text_of(const std::string& name) {
  std::ifstream file(std::string(FANWRIGHT_SOURCE_DIR "/examples/orchard/") + name + ".ornament.json");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Largest lock ratio over neighbouring rows: wedge angle (radians) x outer reach / clear distance.
double lock_ratio(const Leaf& leaf, const design::Size& size) {
  const double wedge = size.opening_deg / (2.0 * size.leaves) * std::numbers::pi / 180;
  double largest = 0;
  for (std::size_t i = 1; i < leaf.rows.size(); ++i) {
    const GlueRow &below = leaf.rows[i - 1], &above = leaf.rows[i];
    const double clear = above.from.z - below.from.z - (above.width_mm + below.width_mm) / 2;
    largest = std::max(largest, wedge * std::max(below.to.x, above.to.x) / clear);
  }
  return largest;
}

class Orchard : public testing::TestWithParam<const char*> {};

TEST_P(Orchard, leaves_open_freely_and_fit_their_sheet) {
  const auto parsed = design::parse(text_of(GetParam()));
  ASSERT_TRUE(std::holds_alternative<design::Design>(parsed)) << std::get<design::Refusal>(parsed).sentence;
  const auto& design = std::get<design::Design>(parsed);
  EXPECT_GE(design.sizes.size(), 2u);
  for (const design::Size& size : design.sizes) {
    const auto result = build(design, size);
    ASSERT_TRUE(std::holds_alternative<Leaf>(result)) << std::get<design::Refusal>(result).sentence;
    const Leaf& leaf = std::get<Leaf>(result);
    // Below 0.7 an ornament opens well (docs/model.md, lock ratio).
    EXPECT_LT(lock_ratio(leaf, size), 0.7) << size.name;
    const Box box = bounds(leaf.outline);
    EXPECT_LE(2 * box.width(), size.sheet.size.width_mm - 2 * size.sheet.margin_mm) << size.name;
    EXPECT_LE(box.height(), size.sheet.size.height_mm - 2 * size.sheet.margin_mm) << size.name;
  }
}

INSTANTIATE_TEST_SUITE_P(leaf, Orchard, testing::Values("pear", "cypress", "moth", "apple"),
                         [](const auto& name) { return std::string(name.param); });

} // namespace
} // namespace fanwright::leaf
