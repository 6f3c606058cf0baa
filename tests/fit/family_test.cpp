#include "fit/advice.h"
#include "fit/family.h"
#include "opened/opened.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace fanwright::fit {
namespace {

design::Design pear(const design::Rows& rows = design::EvenRows{15, design::Side::inside, 3, 3, 3}) {
  design::Design design;
  design.title = "Pear";
  design.shows = design::Shows::flat;
  design.silhouette_path =
      "M 0 7 C 12 7 18 0 34 0 C 66 0 86 34 86 74 C 86 126 46 138 42 188 C 40.5 208 36 222 24 228 C "
      "17 231.5 16 238 16 244 C 16 250 17.5 255 20 260 C 13 258 7 257 0 257";
  design::Size size;
  size.name = "drawn";
  size.height_mm = 180;
  size.leaves = 42;
  size.rows = rows;
  size.paper = paper::typical_paper(120);
  design.sizes = {size};
  return design;
}

std::vector<Proposal> proposals(const design::Design& design, const std::vector<double>& heights) {
  auto result = family(design, design.sizes[0], heights);
  if (const auto* failure = std::get_if<Failure>(&result)) {
    throw std::runtime_error(failure->sentence);
  }
  return std::get<std::vector<Proposal>>(std::move(result));
}

const design::EvenRows& rows_of(const Proposal& proposal) { return std::get<design::EvenRows>(proposal.size.rows); }

TEST(fit, every_proposed_size_opens_and_varies_as_makers_vary) {
  const design::Design design = pear();
  const auto list = proposals(design, {260, 100, 180, 350});
  ASSERT_EQ(list.size(), 4u);
  for (std::size_t k = 0; k < list.size(); ++k) {
    const Proposal& proposal = list[k];
    const auto leaf = std::get<leaf::Leaf>(leaf::build(design, proposal.size));
    const auto form = std::get<opened::Form>(opened::open(opened::panel_of(leaf, proposal.size)));
    EXPECT_LE(form.lock_ratio, 0.7);
    EXPECT_DOUBLE_EQ(form.height_mm, proposal.height_mm);
    EXPECT_DOUBLE_EQ(form.diameter_mm, proposal.diameter_mm);
    // Common practice, no source: rows at most 25 mm apart.
    EXPECT_LE(proposal.row_spacing_mm, 25.5);
    EXPECT_GE(proposal.row_spacing_mm, 7.5);
    EXPECT_EQ(rows_of(proposal).count % 2, 1) << "top and foot row on the same side, as drawn";
    if (k > 0) {
      EXPECT_GE(proposal.size.leaves, list[k - 1].size.leaves);
      EXPECT_GE(proposal.size.paper.grammage_gsm, list[k - 1].size.paper.grammage_gsm);
      EXPECT_GE(rows_of(proposal).width_mm, rows_of(list[k - 1]).width_mm);
    }
  }
  // Not a plain scaling.
  EXPECT_LT(list.back().size.leaves / 350.0, list.front().size.leaves / 100.0);
}

TEST(fit, the_drawn_height_proposes_the_size_as_drawn) {
  const design::Design design = pear();
  const Proposal proposal = proposals(design, {180})[0];
  EXPECT_EQ(proposal.size.leaves, 42);
  EXPECT_EQ(rows_of(proposal).count, 15);
  EXPECT_EQ(rows_of(proposal).width_mm, 3);
  EXPECT_EQ(proposal.size.paper.grammage_gsm, 120);
  EXPECT_NEAR(proposal.sag, 1, 1e-9);
}

TEST(fit, each_proposal_says_why) {
  for (const Proposal& proposal : proposals(pear(), {120, 240})) {
    for (const char* what : {"leaves", "glue", "rows", "paper"}) {
      const auto reason = std::find_if(proposal.reasons.begin(), proposal.reasons.end(),
                                       [what](const Reason& r) { return r.what == what; });
      ASSERT_NE(reason, proposal.reasons.end()) << what;
      EXPECT_GT(reason->sentence.size(), 40u) << what;
    }
  }
}

TEST(fit, a_family_of_an_opened_drawing_stands_as_high_as_asked) {
  design::Design design = pear(design::EvenRows{9, design::Side::inside, 3, 3, 3});
  design.silhouette_path = "M 0 0 L 42 0 C 30 14 30 30 28 60 C 26 92 18 112 0 118 Z";
  design.shows = design::Shows::opened;
  design.sizes[0].height_mm = 118;
  design.sizes[0].leaves = 36;
  for (const Proposal& proposal : proposals(design, {90, 160})) {
    // 0.2 % of the size.
    EXPECT_NEAR(proposal.height_mm, *proposal.size.height_mm, 0.002 * *proposal.size.height_mm);
    EXPECT_LT(proposal.flat_height_mm, 1.2 * *proposal.size.height_mm);
  }
}

TEST(fit, listed_rows_keep_their_places_and_change_their_width) {
  std::vector<design::ListedRow> rows;
  for (int k = 0; k < 14; ++k) {
    rows.push_back({k % 2 == 0 ? design::Side::inside : design::Side::between, 5, 16.0 + 17 * k, 12, 16.0 + 17 * k, 3});
  }
  const Proposal proposal = proposals(pear(rows), {90})[0];
  const auto& listed = std::get<std::vector<design::ListedRow>>(proposal.size.rows);
  EXPECT_EQ(listed.size(), 14u);
  EXPECT_EQ(listed[3].from_z_mm, rows[3].from_z_mm);
  EXPECT_LT(listed[3].width_mm, 3);
}

TEST(fit, a_design_that_hardly_opens_is_proposed_with_rows_that_do) {
  // As drawn its rows pass a lock ratio of 0.7.
  design::Design design = pear(design::EvenRows{21, design::Side::inside, 3, 3, 3});
  design.sizes[0].leaves = 40;
  for (const Proposal& proposal : proposals(design, {120, 180, 260})) {
    EXPECT_LE(proposal.lock_ratio, 0.7);
  }
}

TEST(fit, no_family_goes_by_a_size_that_locks) {
  design::Design design = pear();
  design.sizes[0].leaves = 12;
  const auto result = family(design, design.sizes[0], {120});
  ASSERT_TRUE(std::holds_alternative<Failure>(result));
  EXPECT_TRUE(std::get<Failure>(result).fails_check);
  EXPECT_NE(std::get<Failure>(result).sentence.find("lock"), std::string::npos);
}

TEST(fit, refuses_heights_no_family_can_have) {
  const design::Design design = pear();
  const auto sentence = [&](const std::vector<double>& heights) {
    const auto result = family(design, design.sizes[0], heights);
    const auto* failure = std::get_if<Failure>(&result);
    return failure != nullptr ? failure->sentence : "";
  };
  EXPECT_NE(sentence({}).find("1 to 12"), std::string::npos);
  EXPECT_NE(sentence(std::vector<double>(13, 100)).find("1 to 12"), std::string::npos);
  EXPECT_NE(sentence({120, 120}).find("twice"), std::string::npos);
  EXPECT_NE(sentence({5}).find("10 to 2000"), std::string::npos);
  EXPECT_NE(sentence({std::nan("")}).find("10 to 2000"), std::string::npos);
}

TEST(fit, large_sizes_of_a_small_design_get_paper_of_about_170_gsm) {
  // Common practice, no source: 120 for small pieces, 160 to 180 for large.
  EXPECT_NEAR(family_gsm(120, 120, 260), 170, 20);
  EXPECT_NEAR(family_gsm(170, 260, 120), 120, 15);
}

RC_GTEST_PROP(fit, higher_sizes_of_a_family_never_get_lighter_paper, ()) {
  const double drawn = *rc::gen::element(120.0, 135.0, 160.0, 200.0);
  const double drawn_height = *rc::gen::inRange(60, 300);
  const double height = *rc::gen::inRange(40, 500);
  const double higher = height + *rc::gen::inRange(0, 300);
  const double a = family_gsm(drawn, drawn_height, height);
  const double b = family_gsm(drawn, drawn_height, higher);
  RC_ASSERT(a <= b);
  RC_ASSERT(a >= 80);
  RC_ASSERT(b <= 300);
}

} // namespace
} // namespace fanwright::fit
