#include "fit/compare.h"
#include "fit/compare_neighbours.h"
#include "opened/opened.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

namespace fanwright::fit {
namespace {

design::Design of(const std::string& path, double height, int leaves, int rows, double width) {
  design::Design design;
  design.silhouette_path = path;
  design.shows = design::Shows::flat;
  design::Size size;
  size.name = "one";
  size.height_mm = height;
  size.leaves = leaves;
  size.rows = design::EvenRows{rows, design::Side::inside, width, width, width};
  size.paper = paper::typical_paper(120);
  design.sizes = {size};
  return design;
}

/// Broad, with open cells: leaf count and rows show in its height, paper in its diameter.
design::Design pear() {
  return of("M 0 7 C 12 7 18 0 34 0 C 66 0 86 34 86 74 C 86 126 46 138 42 188 C 40.5 208 36 222 24 228 C 17 231.5 16 "
            "238 16 244 C 16 250 17.5 255 20 260 C 13 258 7 257 0 257",
            180, 42, 15, 3);
}

/// Slim and firm: its diameter shows the paper's thickness through the hub.
design::Design spindle() { return of("M 0 0 L 8 0 C 30 30 30 100 8 130 L 0 130", 130, 36, 12, 2.5); }

/// Wide at the foot, whose long flaps are soft.
design::Design flare() { return of("M 0 0 L 62 0 C 46 20 52 60 44 90 C 38 130 24 155 0 160", 160, 36, 12, 3); }

opened::Panel panel_of(const design::Design& design) {
  return opened::panel_of(std::get<leaf::Leaf>(leaf::build(design, design.sizes[0])), design.sizes[0]);
}

/// Readings of a piece made otherwise than designed, to a tenth of a millimetre as a good ruler gives them.
Readings made(const design::Design& design, const std::function<void(opened::Panel&)>& change) {
  opened::Panel panel = panel_of(design);
  change(panel);
  const auto form = std::get<opened::Form>(opened::open(panel));
  return {std::round(10 * form.height_mm) / 10, std::round(10 * form.diameter_mm) / 10, 0.3};
}

void scale(opened::Panel& panel, double factor) {
  for (leaf::Point& p : panel.outline) {
    p = {factor * p.x, factor * p.z};
  }
  for (leaf::GlueRow& row : panel.rows) {
    row.from = {factor * row.from.x, factor * row.from.z};
    row.to = {factor * row.to.x, factor * row.to.z};
    row.width_mm *= factor;
  }
}

Comparison compared(const design::Design& design, const Readings& readings) {
  auto result = compare(design, design.sizes[0], readings);
  if (const auto* failure = std::get_if<Failure>(&result)) {
    throw std::runtime_error(failure->sentence);
  }
  return std::get<Comparison>(std::move(result));
}

std::string told(const Comparison& comparison) {
  std::string text = std::to_string(comparison.alike) + " alike\n";
  char line[64];
  std::snprintf(line, sizeof line, "%.1f %.1f  %.1f %.1f +- %.2f %.2f\n", comparison.height_mm, comparison.diameter_mm,
                comparison.readings.height_mm, comparison.readings.diameter_mm, comparison.spread.height_mm,
                comparison.spread.diameter_mm);
  text += line;
  for (const Explanation& e : comparison.explanations) {
    char numbers[160];
    std::snprintf(numbers, sizeof numbers, "misfit %6.2f doubt %5.2f  %.1f %.1f  ", e.misfit, e.doubt, e.height_mm,
                  e.diameter_mm);
    text += numbers + e.sentence + "\n";
  }
  return text;
}

bool among_alike(const Comparison& comparison, Cause cause) {
  const auto end = comparison.explanations.begin() + comparison.alike;
  return std::any_of(comparison.explanations.begin(), end,
                     [cause](const Explanation& explanation) { return explanation.cause == cause; });
}

TEST(fit, a_template_printed_fit_to_page_is_recognised) {
  const design::Design design = spindle();
  // A4 on letter: 279.4 / 297; letter on A4: 210 / 215.9; A4 into margins of 4.233 mm: (210 - 2 x 4.233) / 210.
  for (const double share : {279.4 / 297, 210 / 215.9, (210 - 2 * 4.2333) / 210}) {
    const Comparison comparison = compared(design, made(design, [&](auto& panel) { scale(panel, share); }));
    ASSERT_GT(comparison.alike, 0) << told(comparison);
    EXPECT_EQ(comparison.explanations[0].cause, Cause::fitted_to_page) << told(comparison);
    EXPECT_NEAR(comparison.explanations[0].value, share, 1e-3);
    EXPECT_TRUE(comparison.explanations[0].in_making);
  }
}

TEST(fit, two_ways_of_fitting_to_a_page_that_differ_by_a_thousandth_are_not_told_apart) {
  const design::Design design = spindle();
  const Comparison comparison = compared(design, made(design, [](auto& panel) { scale(panel, 279.4 / 297); }));
  ASSERT_GE(comparison.alike, 2) << told(comparison);
  EXPECT_EQ(comparison.explanations[0].cause, Cause::fitted_to_page);
  EXPECT_EQ(comparison.explanations[1].cause, Cause::fitted_to_page);
}

TEST(fit, another_scale_is_measured) {
  const design::Design design = spindle();
  const Comparison comparison = compared(design, made(design, [](auto& panel) { scale(panel, 0.9); }));
  ASSERT_GT(comparison.alike, 0) << told(comparison);
  EXPECT_EQ(comparison.explanations[0].cause, Cause::cut_scale) << told(comparison);
  EXPECT_NEAR(comparison.explanations[0].value, 0.9, 0.003);
}

TEST(fit, a_packet_of_leaves_left_out_shows_in_the_height_of_open_cells) {
  const design::Design design = pear();
  const Comparison comparison = compared(design, made(design, [](auto& panel) { panel.leaves -= 8; }));
  ASSERT_GT(comparison.alike, 0) << told(comparison);
  EXPECT_EQ(comparison.explanations[0].cause, Cause::leaf_count) << told(comparison);
  EXPECT_EQ(comparison.explanations[0].value, 34);
}

TEST(fit, thicker_paper_shows_in_the_diameter_of_a_slim_piece) {
  const design::Design design = spindle();
  const Comparison comparison = compared(design, made(design, [](auto& panel) { panel.sheet.thickness_mm = 0.24; }));
  ASSERT_GT(comparison.alike, 0) << told(comparison);
  EXPECT_EQ(comparison.explanations[0].cause, Cause::caliper) << told(comparison);
  EXPECT_NEAR(comparison.explanations[0].value, 0.24, 0.024);
  EXPECT_FALSE(comparison.explanations[0].in_making);
}

TEST(fit, soft_paper_shows_in_a_flaring_piece) {
  const design::Design design = flare();
  const opened::Panel panel = panel_of(design);
  const Neighbours near(panel, std::get<opened::Form>(opened::open(panel)), {});
  const Extent soft = near.with_bending(0.25).value();
  const Comparison comparison = compared(design, {soft.height_mm, soft.diameter_mm, 0.3});
  ASSERT_GT(comparison.alike, 0) << told(comparison);
  EXPECT_EQ(comparison.explanations[0].cause, Cause::stiffness) << told(comparison);
  EXPECT_LT(comparison.explanations[0].value, 0.6);
}

TEST(fit, squeezed_out_glue_and_a_slightly_small_print_look_alike) {
  // Both make the pear about 1 % lower and slimmer.
  const design::Design design = pear();
  const Comparison comparison = compared(design, made(design, [](auto& panel) {
                                           for (leaf::GlueRow& row : panel.rows) {
                                             row.width_mm += 3;
                                           }
                                         }));
  EXPECT_TRUE(among_alike(comparison, Cause::wide_glue)) << told(comparison);
  EXPECT_TRUE(among_alike(comparison, Cause::cut_scale)) << told(comparison);
}

TEST(fit, a_gap_at_the_seam_and_more_leaves_look_alike) {
  // Only opening / leaves enters: 42 leaves through 270 degrees are as 56 through 360.
  const design::Design design = pear();
  const Comparison comparison = compared(design, made(design, [](auto& panel) { panel.opening_deg = 270; }));
  EXPECT_TRUE(among_alike(comparison, Cause::opening)) << told(comparison);
  const auto of = [&](Cause cause) {
    return *std::find_if(comparison.explanations.begin(), comparison.explanations.end(),
                         [cause](const Explanation& explanation) { return explanation.cause == cause; });
  };
  EXPECT_NEAR(of(Cause::opening).misfit, of(Cause::leaf_count).misfit, 0.5) << told(comparison);
}

TEST(fit, what_paper_creases_and_air_may_do_is_as_predicted) {
  const design::Design design = spindle();
  const opened::Panel panel = panel_of(design);
  Neighbours near(panel, std::get<opened::Form>(opened::open(panel)), {});
  // Full creases, caliper 4 % up, 30 % damper air: all within the spread and half a millimetre of ruler.
  for (const auto& extent : {std::optional(near.designed()), near.creased(1), near.with_caliper(0.1664),
                             std::optional(near.grown(0.0038, 0.0014))}) {
    if (extent) {
      const Comparison comparison = compared(design, {extent->height_mm, extent->diameter_mm, 0.5});
      EXPECT_TRUE(comparison.as_predicted) << told(comparison);
      EXPECT_TRUE(comparison.explanations.empty());
    }
  }
}

TEST(fit, two_mistakes_at_once_are_not_put_down_to_one) {
  const design::Design design = spindle();
  // Longer and slimmer at once: no single input does that.
  const Comparison comparison = compared(design, {138, 47, 0.3});
  EXPECT_FALSE(comparison.as_predicted);
  EXPECT_EQ(comparison.alike, 0) << told(comparison);
}

TEST(fit, a_leaf_at_another_scale_is_the_same_leaf_in_other_paper) {
  const design::Design design = pear();
  const opened::Panel panel = panel_of(design);
  Neighbours near(panel, std::get<opened::Form>(opened::open(panel)), {});
  const Extent warm = near.scaled(0.94).value();
  opened::Panel smaller = panel;
  scale(smaller, 0.94);
  const auto cold = std::get<opened::Form>(opened::open(smaller));
  EXPECT_NEAR(warm.height_mm, cold.height_mm, 0.05);
  EXPECT_NEAR(warm.diameter_mm, cold.diameter_mm, 0.05);
}

TEST(fit, nothing_is_compared_with_a_design_that_locks) {
  design::Design design = spindle();
  design.sizes[0].leaves = 6;
  const auto result = compare(design, design.sizes[0], {130, 52, 0.5});
  ASSERT_TRUE(std::holds_alternative<Failure>(result));
  EXPECT_NE(std::get<Failure>(result).sentence.find("lock"), std::string::npos);
}

TEST(fit, readings_in_another_unit_are_refused) {
  const design::Design design = spindle();
  const auto result = compare(design, design.sizes[0], {130.2 / 25.4, 52.4 / 25.4, 0.5});
  ASSERT_TRUE(std::holds_alternative<Failure>(result));
  EXPECT_NE(std::get<Failure>(result).sentence.find("inches"), std::string::npos);
  EXPECT_TRUE(std::holds_alternative<Failure>(compare(design, design.sizes[0], {0, 52, 0.5})));
}

TEST(fit, the_corrected_size_comes_out_as_wanted_when_the_difference_comes_again) {
  design::Design design = spindle();
  const auto small = [](opened::Panel& panel) { scale(panel, 0.96); };
  const Comparison comparison = compared(design, made(design, small));
  for (const Wanted& wanted : {Wanted{150, {}}, Wanted{{}, 60}}) {
    const auto correction = std::get<Correction>(corrected(design, design.sizes[0], comparison, wanted));
    design.sizes[0].height_mm = correction.height_mm;
    const Readings next = made(design, small);
    design.sizes[0].height_mm = 130;
    // The readings are rounded to a tenth.
    if (wanted.height_mm) {
      EXPECT_NEAR(next.height_mm, 150, 0.25);
    } else {
      EXPECT_NEAR(next.diameter_mm, 60, 0.25);
    }
    EXPECT_NEAR(correction.scale, correction.height_mm / 130, 1e-9);
  }
}

} // namespace
} // namespace fanwright::fit
