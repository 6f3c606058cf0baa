// A small design that passes every check, and for each check one change that only this check objects to.
#include "fit/check_designs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <ostream>
#include <set>
#include <string>

namespace fanwright::fit {
namespace {

/// What is changed in the barrel, and the only check that then objects.
struct Fault {
  const char* id;
  Finding::Verdict verdict;
  const char* patch;
  friend void PrintTo(const Fault& fault, std::ostream* out) { *out << fault.id; }
};

const Fault faults[] = {
    // Drawn opened: 8 leaves lock, q = pi / 8 * 35 / 9.
    {"opens.form", Finding::fails, R"({"leaves": 8,
        "silhouette": {"path": "M 0 0 L 34 0 C 42 16 42 44 34 60 L 0 60", "shows": "opened"}})"},
    // q = beta x1 / s = pi / 10 * 35 / 9.
    {"opens.rows", Finding::fails, R"({"leaves": 10})"},
    {"opens.paper", Finding::fails, R"({"leaves": 15, "making": {"display": "hangs"},
        "paper": {"grammage": 110, "modulus": 550, "caliper": 0.25}})"},
    {"closes.pull", Finding::fails, R"({"leaves": 20, "paper": {"grammage": 300},
        "rows": {"width": 1}, "making": {"bead": 0.3, "display": "hangs"}})"},
    // 60 leaves of 0.29 mm leave a hole of 6 mm; the waist is 5 mm wide.
    {"closes.hub", Finding::fails, R"({"leaves": 60, "paper": {"grammage": 110, "caliper": 0.29},
        "silhouette": {"path": "M 0 2 L 34 0 L 40 20 L 5 30 L 40 40 L 34 60 L 0 60"},
        "rows": [{"side": "inside", "from": [3, 5], "to": [30, 5], "width": 3},
                 {"side": "between", "from": [3, 17], "to": [34, 17], "width": 3},
                 {"side": "inside", "from": [3, 43], "to": [34, 43], "width": 3},
                 {"side": "between", "from": [3, 55], "to": [30, 55], "width": 3}]})"},
    {"closes.seam", Finding::fails, R"({
        "rows": [{"side": "inside", "from": [3, 6], "to": [31, 6], "width": 3},
                 {"side": "between", "from": [3, 30], "to": [35, 30], "width": 3},
                 {"side": "inside", "from": [3, 54], "to": [31, 54], "width": 3}]})"},
    // Straight from 16 mm outwards: the rim of the foot lifts, and it stands further in.
    {"stands.foot", Finding::fails, R"({"leaves": 22, "paper": {"grammage": 80, "modulus": 1500},
        "silhouette": {"path": "M 0 5 L 16 0 L 38 0 C 42 16 42 44 34 60 L 0 60"}})"},
    {"stands.tips", Finding::fails, R"({
        "silhouette": {"path": "M 0 1 L 3 0 L 12 12 C 42 26 42 44 34 72 L 0 72"}})"},
    {"hangs.straight", Finding::fails, R"({"opening": 270, "making": {"display": "hangs"}})"},
    // A bead of 1 mm is pressed out to 7.9 mm.
    {"glue.row", Finding::fails, R"({"making": {"bead": 1}, "rows": {"count": 4, "spine_gap": 6, "edge_gap": 6}})"},
    {"glue.fold", Finding::fails, R"({"rows": {"spine_gap": 0.5}})"},
    {"glue.edge", Finding::fails, R"({"rows": {"edge_gap": 0.5}})"},
    {"glue.cells", Finding::fails, R"({"leaves": 40, "making": {"bead": 1},
        "rows": {"count": 5, "width": 6, "spine_gap": 6, "edge_gap": 5.5}})"},
    {"flaps.droop", Finding::fails, R"({"paper": {"grammage": 80},
        "silhouette": {"path": "M 0 2 L 34 0 C 42 16 42 44 34 60 L 16 62 L 14 130 L 0 130"},
        "rows": [{"side": "inside", "from": [3, 6], "to": [30, 6], "width": 3},
                 {"side": "between", "from": [3, 18], "to": [34, 18], "width": 3},
                 {"side": "inside", "from": [3, 30], "to": [36, 30], "width": 3},
                 {"side": "between", "from": [3, 42], "to": [34, 42], "width": 3},
                 {"side": "inside", "from": [3, 54], "to": [30, 54], "width": 3}]})"},
    // Two brims with 0.6 mm between them: the body between them shortens and tilts them together.
    {"flaps.clash", Finding::fails, R"({"leaves": 17, "paper": {"grammage": 80, "modulus": 2000},
        "silhouette": {"path": "M 0 2 L 18 0 L 18 20 L 40 20 L 40 29.7 L 18 29.7 L 18 30.3 L 40 30.3 L 40 40 L 18 40 L 18 60 L 0 60"},
        "rows": [{"side": "between", "from": [3, 6], "to": [14, 6], "width": 3},
                 {"side": "inside", "from": [3, 24], "to": [36, 24], "width": 3},
                 {"side": "between", "from": [3, 36], "to": [36, 36], "width": 3},
                 {"side": "inside", "from": [3, 54], "to": [14, 54], "width": 3}]})"},
    {"cut.bridge", Finding::fails, R"({
        "silhouette": {"path": "M 0 2 L 34 0 L 38 30 L 34 60 L 0 60 Z M 32 30 A 2 2 0 0 0 36.5 30 A 2 2 0 0 0 32 30 Z"}})"},
    {"cut.hole", Finding::fails, R"({
        "silhouette": {"path": "M 0 2 L 34 0 L 38 30 L 34 60 L 0 60 Z M 20 24 A 0.5 0.5 0 0 0 21 24 A 0.5 0.5 0 0 0 20 24 Z"}})"},
    {"sheet.fits", Finding::fails, R"({"sheet": {"size": {"width": 84, "height": 120}}})"},
    {"cut.radius", Finding::warning, R"({
        "silhouette": {"path": "M 0 2 L 34 0 L 37 29.5 A 0.5 0.5 0 0 0 37 30.5 L 34 60 L 0 60"}})"},
    {"fold.score", Finding::warning, R"({"leaves": 60, "paper": {"grammage": 255}})"},
    {"fold.grain", Finding::warning, R"({"paper": {"grammage": 150, "grain": "across spine"}})"},
    // A tip drawn to the axis, where the folds of 32 leaves stand off it.
    {"opens.outline", Finding::note, R"({
        "silhouette": {"path": "M 0 0 L 34 0 C 38 20 6 50 0 90", "shows": "opened"}})"},
    {"paper.core", Finding::warning, R"({"colour": "#203060", "paper": {"core": "white"}})"},
};

class Check : public testing::TestWithParam<Fault> {};

TEST_P(Check, objects_alone) {
  const auto findings = checked(changed(GetParam().patch));
  for (const Finding& finding : findings) {
    if (finding.id == GetParam().id)
      EXPECT_EQ(finding.verdict, GetParam().verdict) << told({finding});
    else
      EXPECT_LT(finding.verdict, GetParam().verdict) << told({finding});
  }
  const Finding& found = finding_of(findings, GetParam().id);
  EXPECT_FALSE(found.sentence.empty());
  EXPECT_FALSE(found.remedy.empty());
  EXPECT_FALSE(found.limit_source.empty());
  EXPECT_EQ(found.where.front(), '/');
}

/// Changes of the barrel that a check is content with, where it has nothing to say of the barrel itself.
const char* content_with(const std::string& id) {
  if (id == "hangs.straight")
    return R"({"making": {"display": "hangs"}})";
  if (id == "cut.hole")
    return R"({"silhouette": {"path":
        "M 0 2 L 34 0 L 38 30 L 34 60 L 0 60 Z M 18 24 A 2 2 0 0 0 22 24 A 2 2 0 0 0 18 24 Z"}})";
  if (id == "opens.form" || id == "opens.outline")
    return R"({"silhouette": {"path": "M 0 0 L 34 0 C 42 16 42 44 34 60 L 0 60", "shows": "opened"}})";
  return "{}";
}

TEST_P(Check, is_content_with_the_barrel) {
  const auto findings = checked(changed(content_with(GetParam().id)));
  EXPECT_FALSE(findings.empty());
  if (std::string(GetParam().id) != "opens.form") { // a form that is found is told by what was measured on it
    EXPECT_EQ(finding_of(findings, GetParam().id).verdict, Finding::good);
  }
  EXPECT_EQ(worst(findings), Finding::good) << told(findings);
}

TEST(fit, every_check_that_the_book_lists_has_its_fault) {
  // Weight is told only; fans have their own tests.
  std::set<std::string> missing;
  std::ifstream book(FANWRIGHT_SOURCE_DIR "/docs/check.md");
  int listed = 0;
  for (std::string line; std::getline(book, line);)
    if (line.starts_with("| `")) {
      const std::string id = line.substr(3, line.find('`', 3) - 3);
      ++listed;
      if (!id.starts_with("fan.") && id != "weight" &&
          std::ranges::find(faults, id, [](const Fault& fault) { return std::string(fault.id); }) == std::end(faults))
        missing.insert(id);
    }
  EXPECT_GT(listed, 20);
  EXPECT_TRUE(missing.empty()) << *missing.begin();
}

INSTANTIATE_TEST_SUITE_P(fit, Check, testing::ValuesIn(faults), [](const auto& fault) {
  std::string name = fault.param.id;
  std::ranges::replace(name, '.', '_');
  return name;
});

} // namespace
} // namespace fanwright::fit
