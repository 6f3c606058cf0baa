// What a finding tells the maker to do, done: the check is then content. And measures against worked examples.
#include "fit/check_designs.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

namespace fanwright::fit {
namespace {

/// The first number after `words` in the text.
double number_after(const std::string& text, const std::string& words) {
  const std::size_t at = text.find(words);
  if (at == std::string::npos) {
    ADD_FAILURE() << "no \"" << words << "\" in: " << text;
    return 0;
  }
  return std::strtod(text.c_str() + at + words.size(), nullptr);
}

std::string remedy_of(const json& design, const std::string& id) {
  const Finding finding = finding_of(checked(design), id);
  EXPECT_GE(finding.verdict, Finding::warning) << finding.sentence;
  return finding.remedy;
}

void expect_content(const json& design, const std::string& id) {
  const Finding finding = finding_of(checked(design), id);
  EXPECT_EQ(finding.verdict, Finding::good) << finding.sentence << " " << finding.remedy;
}

void try_leaves(json design, const std::string& id, const std::string& words) {
  design["leaves"] = static_cast<int>(number_after(remedy_of(design, id), words));
  expect_content(design, id);
}

TEST(fit, so_many_leaves_open_and_no_longer_tear_or_split) {
  try_leaves(changed(R"({"leaves": 10})"), "opens.rows", "at least ");
  try_leaves(changed(R"({"leaves": 17})"), "opens.paper", "about ");
  try_leaves(changed(R"({"leaves": 19})"), "closes.pull", "or ");
}

TEST(fit, so_many_leaves_or_so_wide_a_neck_close) {
  const json wide = changed(R"({"leaves": 60, "paper": {"caliper": 0.29}, "silhouette": {
      "path": "M 0 2 L 34 0 L 40 20 L 10 30 L 40 40 L 34 60 L 0 60"},
      "rows": [{"side": "inside", "from": [3, 5], "to": [30, 5], "width": 3},
               {"side": "between", "from": [3, 17], "to": [34, 17], "width": 3},
               {"side": "inside", "from": [3, 43], "to": [34, 43], "width": 3},
               {"side": "between", "from": [3, 55], "to": [30, 55], "width": 3}]})");
  try_leaves(wide, "closes.hub", "at most ");
  json widened = wide;
  const double neck = number_after(remedy_of(wide, "closes.hub"), "at least ");
  widened["silhouette"]["path"] = "M 0 2 L 34 0 L 40 20 L " + std::to_string(neck) + " 30 L 40 40 L 34 60 L 0 60";
  expect_content(widened, "closes.hub");
}

TEST(fit, a_foot_cut_so_much_higher_at_the_spine_stands_flat) {
  json flat = changed(R"({"leaves": 22, "silhouette": {"path": "M 0 0 L 34 0 C 42 16 42 44 34 60 L 0 60"}})");
  const double rise = number_after(remedy_of(flat, "stands.foot"), "by ");
  flat["silhouette"]["path"] = "M 0 " + std::to_string(rise) + " L 34 0 C 42 16 42 44 34 60 L 0 60";
  expect_content(flat, "stands.foot");
}

TEST(fit, feet_so_far_out_or_so_heavy_stand) {
  json narrow = changed(R"({"silhouette": {"path": "M 0 1 L 3 0 L 12 12 C 42 26 42 44 34 72 L 0 72"}})");
  const Finding tips = finding_of(checked(narrow), "stands.tips");
  const double out = number_after(tips.remedy, "feet ");
  narrow["silhouette"]["path"] = "M 0 1 L " + std::to_string(out) + " 0 L 14 12 C 42 26 42 44 34 72 L 0 72";
  expect_content(narrow, "stands.tips");
  // Balance of moments: the mass with the weight, 2 mm high, lies at the height that makes 15 degrees.
  const double weight = number_after(tips.remedy, "weight of ");
  const double mass = number_after(finding_of(checked(narrow), "weight").sentence, "about ");
  const double height = number_after(tips.sentence, "which lies ");
  const double reach = number_after(tips.sentence, "feet reach ");
  const double sunk = (mass * height + weight * 2) / (mass + weight);
  EXPECT_GT(std::atan2(reach, sunk) * 180 / std::numbers::pi, 15 - 0.7); // figures are told rounded
}

TEST(fit, so_thin_a_bead_or_so_wide_a_gap_keeps_cells_open) {
  for (const auto& [id, patch] :
       {std::pair{"glue.row", R"({"making": {"bead": 1}, "rows": {"count": 4, "spine_gap": 6, "edge_gap": 6}})"},
        {"glue.fold", R"({"rows": {"spine_gap": 1.4}})"},
        {"glue.edge", R"({"rows": {"edge_gap": 1.6}})"},
        {"glue.cells", R"({"leaves": 40, "making": {"bead": 1},
            "rows": {"count": 5, "width": 6, "spine_gap": 6, "edge_gap": 5.5}})"}}) {
    json design = changed(patch);
    design["making"]["bead"] = number_after(remedy_of(design, id), "a bead of at most ");
    expect_content(design, id);
  }
  for (const auto& [id, key] : {std::pair{"glue.fold", "spine_gap"}, {"glue.edge", "edge_gap"}}) {
    json design = barrel();
    design["rows"][key] = 1.4;
    design["rows"][key] = number_after(remedy_of(design, id), "eep the rows ");
    expect_content(design, id);
  }
}

TEST(fit, flaps_so_much_further_apart_do_not_meet) {
  const auto brims = [](double notch) {
    const std::string low = std::to_string(30 - notch / 2), high = std::to_string(30 + notch / 2);
    json design = changed(R"({"leaves": 17, "paper": {"grammage": 80, "modulus": 2000},
        "rows": [{"side": "between", "from": [3, 6], "to": [14, 6], "width": 3},
                 {"side": "inside", "from": [3, 24], "to": [36, 24], "width": 3},
                 {"side": "between", "from": [3, 36], "to": [36, 36], "width": 3},
                 {"side": "inside", "from": [3, 54], "to": [14, 54], "width": 3}]})");
    design["silhouette"]["path"] = "M 0 2 L 18 0 L 18 20 L 40 20 L 40 " + low + " L 18 " + low + " L 18 " + high +
                                   " L 40 " + high + " L 40 40 L 18 40 L 18 60 L 0 60";
    return design;
  };
  const double wider = number_after(remedy_of(brims(0.6), "flaps.clash"), "between them ");
  expect_content(brims(0.6 + wider), "flaps.clash");
}

TEST(fit, so_low_a_leaf_or_so_large_a_sheet_fits) {
  json design = changed(R"({"sheet": {"size": "A6"}, "sizes": [{"name": "one", "height": 110}]})");
  const std::string remedy = remedy_of(design, "sheet.fits");
  json larger = design;
  larger["sheet"]["size"] = remedy.substr(remedy.find("sheet ") + 6, 2);
  expect_content(larger, "sheet.fits");
  design["sizes"][0]["height"] = number_after(remedy, "at most ");
  expect_content(design, "sheet.fits");
}

TEST(fit, twenty_leaves_of_100_by_150_weigh_what_the_scale_says) {
  // 20 leaves 100 x 150 mm at 175.77 g/m2: 52.73 g (area times grammage), and hardly any glue.
  const auto findings = checked(changed(R"({"leaves": 20, "paper": {"grammage": 175.77}, "making": {"bead": 0.2},
      "silhouette": {"path": "M 0 0 L 50 0 L 50 150 L 0 150"}})"));
  EXPECT_NEAR(finding_of(findings, "weight").value, 52.73, 0.1);
}

TEST(fit, a_triangle_tips_over_its_feet) {
  // Mass of flat leaves round an axis: 50 mm high for a triangle of 150; two feet a leaf, so the nearest edge of the
  // ground lies at r cos(pi / 2N) or nearer. With many leaves the opened form hardly differs from the flat leaf.
  const auto findings = checked(changed(R"({"leaves": 120, "paper": {"grammage": 60}, "rows": {"count": 6},
      "silhouette": {"path": "M 0 4 L 40 0 L 6 150 L 0 150"}})"));
  const Finding tips = finding_of(findings, "stands.tips");
  EXPECT_NEAR(number_after(tips.sentence, "which lies "), 56, 2); // trapezoid 40 to 6: (40 + 12) / (40 + 6) * 50
  EXPECT_NEAR(tips.value, std::atan(43.5 / 56) * 180 / std::numbers::pi, 2);
}

TEST(fit, folds_and_films_make_the_hub) {
  // 40 leaves of twice 0.2 mm and one film of 0.05 mm: 40 * 0.45 / (2 pi) = 2.865 mm, twice that in half a circle.
  const char* patch = R"({"leaves": 40, "paper": {"caliper": 0.2}})";
  EXPECT_NEAR(finding_of(checked(changed(patch)), "closes.hub").value, 2.865, 0.001);
  json half = changed(patch);
  half["opening"] = 180;
  EXPECT_NEAR(finding_of(checked(half), "closes.hub").value, 5.730, 0.001);
}

TEST(fit, bridges_and_holes_are_as_wide_as_drawn) {
  const auto findings = checked(changed(R"({"silhouette": {"path":
      "M 0 2 L 34 0 L 34 60 L 0 60 Z M 25 27 L 31 27 L 31 33 L 25 33 Z"}})"));
  EXPECT_NEAR(finding_of(findings, "cut.bridge").value, 3, 0.03);
  EXPECT_NEAR(finding_of(findings, "cut.hole").value, 6, 0.02);
}

TEST(fit, a_ring_of_paper_between_two_holes_across_the_spine_is_a_bridge) {
  const auto findings = checked(changed(R"({"silhouette": {"path":
      "M 0 2 L 34 0 L 34 60 L 0 60 Z M 2 20 L 8 20 L 8 26 L 2 26 Z"},
      "rows": [{"side": "inside", "from": [3, 6], "to": [30, 6], "width": 3},
               {"side": "between", "from": [3, 16], "to": [30, 16], "width": 3},
               {"side": "inside", "from": [3, 35], "to": [30, 35], "width": 3},
               {"side": "between", "from": [3, 54], "to": [30, 54], "width": 3}]})"));
  EXPECT_NEAR(finding_of(findings, "cut.bridge").value, 3.5,
              0.6); // 2 and 2 mm across the spine; 2.5 to the row is no cut
}

TEST(fit, a_pressed_bead_is_as_wide_as_its_section_says) {
  // w = pi d^2 / (4 h): d 1, h 0.1 gives 7.85 mm.
  EXPECT_NEAR(finding_of(checked(changed(R"({"making": {"bead": 1}})")), "glue.row").value, 7.85, 0.005);
}

TEST(fit, a_wall_piece_has_no_seam) {
  for (const Finding& finding : checked(changed(R"({"opening": 180})")))
    EXPECT_NE(finding.id, "closes.seam");
}

TEST(fit, a_narrow_fan_does_not_stand_by_itself) {
  const Finding tips = finding_of(checked(changed(R"({"opening": 40, "leaves": 16})")), "stands.tips");
  EXPECT_EQ(tips.verdict, Finding::fails);
  EXPECT_NE(tips.sentence.find("does not stand by itself"), std::string::npos) << tips.sentence;
  EXPECT_NE(tips.remedy.find("wall"), std::string::npos) << tips.remedy;
}

TEST(fit, half_a_circle_stands_on_half_a_circle) {
  const Finding whole = finding_of(checked(barrel()), "stands.tips");
  const Finding half = finding_of(checked(changed(R"({"opening": 180})")), "stands.tips");
  EXPECT_EQ(half.verdict, Finding::good) << half.sentence;
  EXPECT_LT(half.value, 0.7 * whole.value);
}

TEST(fit, what_cannot_open_is_a_finding) {
  json bell = changed(R"({"silhouette": {"path": "M 0 0 L 42 0 C 30 14 30 30 28 60 C 26 92 18 112 0 118 Z",
      "shows": "opened"}, "leaves": 8, "rows": {"count": 9}})");
  const design::Design design = parsed(bell);
  const auto found = check(design, design.sizes[0]);
  ASSERT_TRUE(std::holds_alternative<std::vector<Finding>>(found));
  const auto& findings = std::get<std::vector<Finding>>(found);
  EXPECT_EQ(worst(findings), Finding::fails);
  EXPECT_EQ(findings.front().id, "opens.form");
  EXPECT_FALSE(findings.front().remedy.empty());
}

TEST(fit, what_is_no_leaf_is_refused) {
  const design::Design design = parsed(changed(R"({"silhouette": {"path": "M 0 0 L 40 40 L 40 0 L 0 40"}})"));
  EXPECT_TRUE(std::holds_alternative<Failure>(check(design, design.sizes[0])));
}

TEST(fit, findings_stand_worst_first) {
  const auto findings = checked(changed(R"({"rows": {"spine_gap": 0.5}, "paper": {"grammage": 150}})"));
  EXPECT_TRUE(std::ranges::is_sorted(findings, std::ranges::greater{}, &Finding::verdict));
  EXPECT_EQ(findings.front().id, "glue.fold");
}

} // namespace
} // namespace fanwright::fit
