// The Orchard examples can be made in every size, with nothing to warn of.
#include "fit/check.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

namespace fanwright::fit {
namespace {

class OrchardChecks : public testing::TestWithParam<const char*> {};

TEST_P(OrchardChecks, find_nothing_to_warn_of) {
  std::ifstream file(std::string(FANWRIGHT_SOURCE_DIR "/examples/orchard/") + GetParam() + ".ornament.json");
  std::stringstream text;
  text << file.rdbuf();
  const auto design = std::get<design::Design>(design::parse(text.str()));
  for (const design::Size& size : design.sizes) {
    const auto found = check(design, size);
    ASSERT_TRUE(std::holds_alternative<std::vector<Finding>>(found));
    for (const Finding& finding : std::get<std::vector<Finding>>(found))
      EXPECT_LT(finding.verdict, Finding::warning) << size.name << ": " << finding.sentence << " " << finding.remedy;
  }
}

INSTANTIATE_TEST_SUITE_P(fit, OrchardChecks, testing::Values("apple", "beehive", "cypress", "moth", "pear"),
                         [](const auto& name) { return std::string(name.param); });

} // namespace
} // namespace fanwright::fit
