#include "making/making.h"
#include "making/times.h"

#include <gtest/gtest.h>

#include <numbers>
#include <stdexcept>
#include <string>

namespace fanwright::making {
namespace {

design::Size size_of(int leaves, double grammage_gsm, double caliper_mm) {
  design::Size size;
  size.name = "only";
  size.leaves = leaves;
  size.paper.grammage_gsm = grammage_gsm;
  size.paper.caliper_mm = caliper_mm;
  return size;
}

/// The leaf of `path` with three rows: inside 40 mm long, between 30 mm, inside 20 mm (3 mm wide, the last 2.5 mm).
leaf::Leaf leaf_of(const std::string& path, const design::Size& size) {
  design::Design design;
  design.silhouette_path = path;
  design.sizes = {size};
  design.sizes[0].rows = std::vector<design::ListedRow>{{design::Side::inside, 3, 20, 43, 20, 3},
                                                        {design::Side::between, 3, 60, 33, 60, 3},
                                                        {design::Side::inside, 3, 100, 23, 100, 2.5}};
  auto built = leaf::build(design, design.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&built))
    throw std::runtime_error(refusal->sentence);
  return std::get<leaf::Leaf>(built);
}

/// 100 mm wide unfolded, 150 mm high.
const std::string rectangle = "M 0 0 H 50 V 150 H 0";

constexpr double rounding = 1e-9;

TEST(making, weighs_the_paper) {
  const design::Size size = size_of(20, 175.77, 0.229);
  const Materials found = materials(leaf_of(rectangle, size), size, {}, 10);
  EXPECT_NEAR(found.leaf_area_mm2, 15000, rounding);
  EXPECT_NEAR(found.paper_g, 52.73, 0.005); // 20 x 0.100 m x 0.150 m x 175.77 g/m2, computed by hand to two places
  EXPECT_EQ(found.sheets, 10);
}

TEST(making, fans_add_their_paper_and_their_glue) {
  const design::Size size = size_of(20, 175.77, 0.229);
  const leaf::Leaf leaf = leaf_of(rectangle, size);
  const Materials without = materials(leaf, size, {}, 10), with = materials(leaf, size, {}, 10, {2, 4, 56, 800, 12.5});
  EXPECT_NEAR(with.paper_g - without.paper_g, 12.5, rounding);
  EXPECT_NEAR(with.glue_g - without.glue_g, 0.8 * with.glue_g_per_m, rounding); // 800 mm
}

TEST(making, takes_cut_outs_off_the_paper) {
  const design::Size size = size_of(20, 100, 0.2);
  const Materials found = materials(leaf_of(rectangle + " M 20 75 h 10 v 10 h -10 Z", size), size, {}, 10);
  EXPECT_NEAR(found.leaf_area_mm2, 15000 - 2 * 100, rounding);
}

TEST(making, weighs_a_bead_by_its_round_section) {
  // pi d^2 / 4 x 1.1 g/cm3: 0.864 g a metre for 1 mm, 0.216 g for 0.5 mm (computed by hand to three places).
  EXPECT_NEAR(bead_g_per_m(1), 0.864, 0.0005);
  EXPECT_NEAR(bead_g_per_m(0.5), 0.216, 0.0005);
}

TEST(making, presses_a_bead_to_a_strip_of_the_same_section) {
  // w = pi d^2 / (4 h), computed by hand to three figures.
  EXPECT_NEAR(pressed_width_mm(0.5, 0.05), 3.93, 0.005);
  EXPECT_NEAR(pressed_width_mm(1, 0.1), 7.85, 0.005);
  EXPECT_NEAR(pressed_width_mm(1, 0.05), 15.7, 0.05);
}

TEST(making, lays_a_bead_once_a_leaf_inside_and_once_a_joint_between) {
  design::Making making;
  making.bead_mm = 1;
  design::Size size = size_of(20, 160, 0.2);
  const Materials closed = materials(leaf_of(rectangle, size), size, making, 10);
  EXPECT_EQ(closed.joints, 20) << "19 and the seam";
  EXPECT_NEAR(closed.inside_bead_mm, 20 * (40 + 20), rounding);
  EXPECT_NEAR(closed.between_bead_mm, 20 * 30, rounding);
  EXPECT_NEAR(closed.glue_g, 1.8 * 0.863938, 1e-6); // 1.8 m of bead
  size.opening_deg = 180;
  const Materials open = materials(leaf_of(rectangle, size), size, making, 10);
  EXPECT_EQ(open.joints, 19);
  EXPECT_NEAR(open.between_bead_mm, 19 * 30, rounding);
}

TEST(making, laps_of_leaves_in_two_halves_take_paper_and_glue) {
  design::Making making;
  making.bead_mm = 1;
  const design::Size size = size_of(20, 160, 0.2);
  const leaf::Leaf leaf = leaf_of(rectangle, size);
  const Materials whole = materials(leaf, size, making, 10),
                  joined = materials(leaf, size, making, 10, {}, {785, 1000});
  // 1 mm of bead is pressed to pi / 4 / 0.1 mm2.
  EXPECT_NEAR(joined.lap_bead_mm, 785 / (std::numbers::pi / 4 / 0.1) * 20, rounding);
  EXPECT_NEAR(joined.glue_g - whole.glue_g, 785 * 0.1 * 20 * 1e-3 * 1.1, rounding); // a film of 0.1 mm
  EXPECT_NEAR(joined.paper_g - whole.paper_g, 1000 * 1e-6 * 160 * 20, rounding);
  EXPECT_EQ(whole.lap_bead_mm, 0);
}

TEST(making, names_the_bead_that_fills_the_narrowest_row) {
  const design::Size size = size_of(20, 160, 0.2);
  const Materials found = materials(leaf_of(rectangle, size), size, {}, 10);
  EXPECT_EQ(found.narrowest_row_mm, 2.5);
  EXPECT_NEAR(pressed_width_mm(found.widest_bead_mm, pressed_film_mm), 2.5, rounding);
}

TEST(making, coats_the_open_edges_alone) {
  design::Making making;
  const design::Size size = size_of(20, 160, 0.2);
  const Materials bare = materials(leaf_of(rectangle, size), size, making, 10);
  // 250 mm of open edge a half, 0.2 mm thick, 40 halves.
  EXPECT_NEAR(bare.edge_area_m2, 250 * 0.2 * 40 * 1e-6, 1e-12);
  EXPECT_EQ(bare.glitter_g, 0);
  EXPECT_EQ(bare.sealer_g, 0);
  making.glitter = making.sealer = true;
  const Materials coated = materials(leaf_of(rectangle, size), size, making, 10);
  EXPECT_NEAR(coated.glitter_g, 0.002 * 160, rounding);      // common practice, no source
  EXPECT_NEAR(coated.sealer_g, 0.002 * 100 / 0.1, rounding); // common practice, no source
}

TEST(making, clips_a_seam_but_not_an_open_edge) {
  design::Size size = size_of(20, 160, 0.2);
  EXPECT_EQ(materials(leaf_of(rectangle, size), size, {}, 10).clips, 5); // 150 mm, one each 40 mm and one more
  size.opening_deg = 180;
  EXPECT_EQ(materials(leaf_of(rectangle, size), size, {}, 10).clips, 0);
}

} // namespace
} // namespace fanwright::making
