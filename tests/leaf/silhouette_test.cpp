#include "leaf/silhouette.h"

#include "designs.h"

#include "leaf/contour.h"
#include "leaf/tolerances.h"

#include <rapidcheck/gtest.h>

#include <chrono>

namespace fanwright::leaf {
namespace {

const std::string in_path = "/silhouette/path";

TEST(leaf, closes_an_open_outline_along_the_spine) {
  const Leaf leaf = built(design_of(rectangle));
  EXPECT_EQ(leaf.spine_foot_z, 0);
  EXPECT_EQ(leaf.spine_top_z, 150);
  EXPECT_EQ(leaf.outline.start, (Point{0, 0}));
  EXPECT_EQ(end_of(leaf.outline.segments.back()), (Point{0, 0}));
  EXPECT_DOUBLE_EQ(signed_area(leaf.outline), 60 * 150);
}

TEST(leaf, reads_the_same_outline_however_it_is_drawn) {
  for (const char* path : {"M 0 150 H 60 V 0 H 0", "M 0 0 H 60 V 150 H 0 Z", "M 0 0 H 60 V 150 H 0 V 70 V 0 Z",
                           "M 60 0 V 150 H 0 V 0 Z", "M 0 0 V 150 H 60 V 0 Z", "M 0 70 V 0 H 60 V 150 H 0 Z",
                           "M 0 0 H 60 V 150 H 0 V 0", "M 0.004 0 H 60 V 150 H -0.009"}) {
    const Leaf leaf = built(design_of(path));
    EXPECT_EQ(leaf.outline.start, (Point{0, 0})) << path;
    EXPECT_EQ(leaf.spine_top_z, 150) << path;
    EXPECT_DOUBLE_EQ(signed_area(leaf.outline), 60 * 150) << path;
    EXPECT_EQ(flatten(leaf.outline, 0.02).size(), 4u) << path;
  }
}

TEST(leaf, scales_to_the_height_of_the_size_skirts_included) {
  auto design = design_of("M 0 0 L 30 -10 L 40 60 L 0 90");
  design.units_to_mm = 25.4;
  design.sizes[0].height_mm = 250;
  const Leaf leaf = built(design);
  EXPECT_NEAR(bounds(leaf.outline).height(), 250, 1e-9);
  EXPECT_NEAR(bounds(leaf.outline).right, 100, 1e-9);
  EXPECT_NEAR(leaf.spine_foot_z, 0, 1e-9);
  EXPECT_NEAR(leaf.rows.front().width_mm, 3, 0); // widths and gaps are the maker's, not the drawing's
  EXPECT_NEAR(leaf.rows.front().from.x, 3, 0);
}

TEST(leaf, inches_become_millimetres) {
  auto design = design_of("M 0 0 H 2 V 5 H 0");
  design.units_to_mm = 25.4;
  EXPECT_NEAR(built(design).spine_top_z, 127, 1e-12);
}

TEST(leaf, turns_cut_outs_clockwise) {
  for (const char* hole : {"M 30 60 h 10 v 10 h -10 z", "M 30 60 v 10 h 10 v -10 z"}) {
    const Leaf leaf = built(design_of(rectangle + hole));
    ASSERT_EQ(leaf.cut_outs.size(), 1u);
    EXPECT_DOUBLE_EQ(signed_area(leaf.cut_outs[0]), -100);
  }
}

TEST(leaf, refuses_an_outline_that_misses_the_spine) {
  expect_refused(design_of("M 4 0 H 60 V 150 H 0"), in_path, "begins at x 4.0, z 0.0 mm, 4.0 mm away from the spine");
  expect_refused(design_of("M 0 0 H 60 V 150 H 2"), in_path, "ends at x 2.0, z 150.0 mm");
  expect_refused(design_of("M 4 0 H 60 V 150 H 4 Z"), in_path, "no straight stretch");
}

TEST(leaf, refuses_an_outline_left_of_the_spine) {
  expect_refused(design_of("M 0 0 H 60 V 150 H -5 V 140 H 0"), in_path, "x -5.0, z 150.0 mm, left of the spine");
  expect_refused(design_of("M 0 0 C 20 50 -40 60 0 150"), in_path, "left of the spine");
}

TEST(leaf, refuses_a_self_crossing_outline_naming_the_place) {
  // The two diagonals of the square from (0, 0) to (50, 50) meet at its middle, a line from spine to spine round it.
  expect_refused(design_of("M 0 0 H 50 L 10 40 V 10 L 50 50 H 0"), in_path, "at x 25.0, z 25.0 mm");
  expect_refused(design_of("M 0 0 H 60 V 50 H 20 H 60 V 150 H 0"), in_path, "crosses or touches itself");
  expect_refused(design_of("M 0 0 H 60 V 50 L 0 75 L 60 100 V 150 H 0"), in_path, "the spine at x 0.0, z 75.0 mm");
  expect_refused(design_of("M 0 0 V 50 L 60 75 V 150 H 0"), in_path, "crosses or touches itself or the spine");
}

TEST(leaf, refuses_leaves_too_small_or_too_large) {
  expect_refused(design_of("M 0 0 H 4 V 150 H 0"), in_path, "4.0 mm wide");
  expect_refused(design_of("M 0 0 H 40 V 9 H 0"), in_path, "9.0 mm high");
  expect_refused(design_of("M 0 0 H 40 V 2001 H 0"), in_path, "2001.0 mm high");
  expect_refused(design_of("M 0 0 H 40"), in_path, "0.00 mm high");
  expect_refused(design_of("M 0 0 L 40 -40 V 40 L 0 2"), in_path, "only 2.0 mm apart");
  auto design = design_of("M 0 0 H 100 V 20 H 0");
  design.sizes[0].height_mm = 1000;
  design.sizes[0].where = "/sizes/2";
  expect_refused(design, "/sizes/2/height", "5000.0 mm wide");
}

TEST(leaf, refuses_bad_cut_outs) {
  expect_refused(design_of(rectangle + "M 30 60 h 10 v 10 h -10"), in_path,
                 "Cut-out 1, which begins at x 30.0, z 60.0 mm, is not closed");
  expect_refused(design_of(rectangle + "M 70 60 h 10 v 10 z"), in_path, "outside the leaf at x 70.0");
  expect_refused(design_of(rectangle + "M 59.6 60 h -10 v 10 z"), in_path, "within 0.40 mm of the silhouette");
  expect_refused(design_of(rectangle + "M 50 60 h 20 v 10 z"), in_path, "within 0.00 mm of the silhouette");
  expect_refused(design_of(rectangle + "M 0.3 60 h 10 v 10 z"), in_path,
                 "within 0.30 mm of the silhouette or the spine");
  expect_refused(design_of(rectangle + "M 30 60 h 10 l -10 10 h 10 z"), in_path, "Cut-out 1 crosses or touches itself");
  expect_refused(design_of(rectangle + "M 30 60 h 10 z"), in_path, "has no area");
  expect_refused(design_of(rectangle + "M 30 60 h 10 v 10 z M 40.2 60 h 9 v 9 z"), in_path,
                 "within 0.20 mm of cut-out 1");
  expect_refused(design_of(rectangle + "M 20 40 h 20 v 20 h -20 z M 25 45 h 5 v 5 z"), in_path, "of cut-out 1");
  expect_refused(design_of(rectangle + "M 25 45 h 5 v 5 z M 20 40 h 20 v 20 h -20 z"), in_path, "of cut-out 1");
}

TEST(leaf, refuses_a_silhouette_too_finely_drawn_soon) {
  std::string path = "M 0 0 H 60";
  for (int i = 0; i < 9000; ++i)
    path += i % 2 == 0 ? "l-1 .01" : "l1 .01";
  expect_refused(design_of(path + "H 0"), in_path, "at most 8000");
  std::string holes = rectangle;
  for (int i = 0; i < 201; ++i)
    holes += "M 30 60 h 1 v 1 z";
  expect_refused(design_of(holes), in_path, "201 cut-outs");
}

TEST(leaf, the_largest_allowed_silhouette_is_checked_in_seconds) {
  std::string path = "M 0 0 H 1500";
  for (int i = 0; i < 7900; ++i)
    path += i % 2 == 0 ? "l-1400 .1" : "l1400 .1";
  auto design = design_of(path + "V 1000 H 0");
  const auto begin = std::chrono::steady_clock::now();
  const auto result = build(design, design.sizes[0]);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  EXPECT_TRUE(std::holds_alternative<Leaf>(result)) << std::get<design::Refusal>(result).sentence;
  EXPECT_LT(took.count(), 20); // a hang guard: about 0.1 s in Release, far more under sanitizers
}

TEST(leaf, names_the_size_at_fault_in_a_family) {
  auto design = design_of(rectangle);
  design.sizes.push_back(design.sizes[0]);
  design.sizes[0].name = "tiny";
  design.sizes[0].height_mm = 11;
  design.sizes[0].where = "/sizes/0";
  expect_refused(design, "/sizes/0/height", "tiny");
}

TEST(leaf, passes_on_the_place_of_a_fault_in_the_path) {
  expect_refused(design_of("M 0 0 H 60 V x"), in_path, "character 14");
}

RC_GTEST_PROP(leaf, every_silhouette_is_built_or_refused_in_one_sentence, ()) {
  std::string path = "M 0 0";
  for (const auto& [x, z] : *rc::gen::container<std::vector<std::pair<int, int>>>(
           rc::gen::pair(rc::gen::inRange(-5, 80), rc::gen::inRange(-20, 200))))
    path += " L " + std::to_string(x) + " " + std::to_string(z);
  const auto design = design_of(path + " L 0 150");
  const auto result = build(design, design.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&result)) {
    RC_ASSERT(refusal->sentence.back() == '.');
    RC_ASSERT(refusal->where.front() == '/');
  } else {
    RC_ASSERT(signed_area(std::get<Leaf>(result).outline) > 0);
  }
}

} // namespace
} // namespace fanwright::leaf
