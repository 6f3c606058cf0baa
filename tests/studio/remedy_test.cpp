#include "studio/changed_text.h"
#include "studio/remedy.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace fanwright::studio {
namespace {

using fit::Finding;

const std::string text = R"({
  "fanwright": 1,
  "silhouette": { "path": "M 0 0 H 30 C 60 0 60 100 0 120", "shows": "flat" },
  "leaves": 30,
  "rows": { "count": 9, "width": 3 },
  "sizes": [ { "name": "a", "height": 100 }, { "name": "b", "height": 200, "rows": { "count": 11 } } ]
})";

Finding finding(const std::string& id, Finding::Verdict verdict = Finding::fails) {
  Finding finding;
  finding.id = id;
  finding.verdict = verdict;
  finding.value = 130;
  return finding;
}

design::Design design_of(const std::string& from) { return std::get<design::Design>(design::parse(from)); }

TEST(remedy, every_proposal_is_a_sound_design_that_differs_in_that_size_alone) {
  const design::Design design = design_of(text);
  for (const char* id : {"opens.rows", "closes.hub", "closes.seam", "glue.fold", "glue.edge", "flaps.droop",
                         "fold.score", "fold.grain", "paper.core", "sheet.fits"})
    for (const design::Size& size : design.sizes) {
      const auto tries = remedies(text, design, size, finding(id));
      EXPECT_FALSE(tries.empty()) << id;
      for (const auto& changes : tries) {
        const auto changed = with_changes(text, changes);
        ASSERT_TRUE(changed) << id;
        const auto parsed = design::parse(*changed);
        ASSERT_TRUE(std::holds_alternative<design::Design>(parsed))
            << id << " " << changes[0].at << " " << changes[0].after << ": "
            << std::get<design::Refusal>(parsed).sentence;
        const std::string other = size.name == "a" ? "/sizes/1" : "/sizes/0";
        using Json = nlohmann::json;
        EXPECT_EQ(Json::parse(text).at(Json::json_pointer(other)), Json::parse(*changed).at(Json::json_pointer(other)));
        EXPECT_NE(Json::parse(text), Json::parse(*changed));
      }
    }
}

TEST(remedy, keeps_what_the_size_says_of_its_rows) {
  const design::Design design = design_of(text);
  const auto tries = remedies(text, design, design.sizes[1], finding("glue.fold"));
  ASSERT_FALSE(tries.empty());
  const auto changed = design_of(*with_changes(text, tries[0]));
  const auto rows = std::get<design::EvenRows>(changed.sizes[1].rows);
  EXPECT_EQ(rows.count, 11);
  EXPECT_DOUBLE_EQ(rows.spine_gap_mm, 3.5); // 3 mm unless the file says otherwise
}

TEST(remedy, writes_lengths_in_the_unit_of_the_file) {
  std::string inches = text;
  inches.insert(inches.find("\"leaves\""), "\"units\": \"in\", ");
  inches.replace(inches.find("\"width\": 3"), 10, "\"width\": 0.1");
  inches.replace(inches.find("\"height\": 100"), 13, "\"height\": 4");
  inches.replace(inches.find("\"height\": 200"), 13, "\"height\": 8");
  const design::Design design = design_of(inches);
  const auto tries = remedies(inches, design, design.sizes[0], finding("glue.fold"));
  const auto changed = design_of(*with_changes(inches, tries[0]));
  EXPECT_NEAR(std::get<design::EvenRows>(changed.sizes[0].rows).spine_gap_mm,
              std::get<design::EvenRows>(design.sizes[0].rows).spine_gap_mm + 0.5, 0.003);
}

TEST(remedy, helps_when_the_finding_is_gone_and_nothing_is_worse) {
  const Finding bad = finding("opens.rows");
  const std::vector<Finding> before{bad, finding("glue.fold", Finding::warning)};
  EXPECT_TRUE(helps(bad, before, {finding("opens.rows", Finding::good), finding("glue.fold", Finding::warning)}));
  EXPECT_TRUE(helps(bad, before, {finding("fold.score", Finding::note)}));
  EXPECT_FALSE(helps(bad, before, {finding("opens.rows", Finding::warning)}));
  EXPECT_FALSE(helps(bad, before, {finding("opens.rows", Finding::good), finding("glue.fold", Finding::fails)}));
  EXPECT_FALSE(helps(bad, before, {finding("closes.hub", Finding::warning)}));
  EXPECT_FALSE(helps(bad, before, {}));
}

TEST(remedy, asks_nothing_of_the_drawing) {
  const design::Design design = design_of(text);
  for (const char* id : {"cut.radius", "cut.bridge", "stands.foot", "weight", "unheard.of"})
    EXPECT_TRUE(remedies(text, design, design.sizes[0], finding(id)).empty()) << id;
}

TEST(changed_text, takes_sizes_and_papers_for_a_kit) {
  const auto chosen = for_kit(text, std::vector<std::string>{"b"}, {{"b", 200}});
  const auto design = design_of(std::get<std::string>(chosen));
  ASSERT_EQ(design.sizes.size(), 1U);
  EXPECT_EQ(design.sizes[0].name, "b");
  EXPECT_EQ(design.sizes[0].paper.grammage_gsm, 200);
  EXPECT_EQ(design.sizes[0].paper.caliper_mm, paper::typical_paper(200).caliper_mm);
  EXPECT_TRUE(std::holds_alternative<design::Refusal>(for_kit(text, std::vector<std::string>{"c"}, {})));
  EXPECT_TRUE(std::holds_alternative<design::Refusal>(for_kit(text, {}, {{"c", 100}})));
}

} // namespace
} // namespace fanwright::studio
