// The endless patterns against published densities.
#include "sheets/double_lattice.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

using namespace fanwright::sheets;
using fanwright::leaf::Ring;

namespace {

Ring regular(int corners, double radius) {
  Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double angle = 0.3 + 2 * std::numbers::pi * i / corners;
    ring.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return ring;
}

/// Percent of the plane that the densest pattern covers.
double density(const Ring& ring, double paper_mm2) {
  Shape shape = shape_of(ring);
  const Extent box = extent(shape.outline);
  shape = moved(shape, {-(box.left + box.right) / 2, -(box.bottom + box.top) / 2});
  constexpr double um2_per_mm2 = 1e6;
  return 100 * paper_mm2 * um2_per_mm2 / densest_lattice(lattice_regions(shape, 0)).area_um2;
}

double density(const Ring& ring) { return density(ring, area_mm2(shape_of(ring))); }

constexpr double bar = 0.01; // percent; the bar set for the published values

} // namespace

TEST(sheets, finds_the_densest_double_lattices_of_convex_pieces) {
  // Kuperberg and Kuperberg 1990: regular pentagon (5 - sqrt 5) / 3. Regular heptagon 0.8926 (the same method).
  EXPECT_NEAR(density(regular(5, 60)), 100 * (5 - std::sqrt(5.0)) / 3, bar);
  EXPECT_NEAR(density(regular(7, 60)), 89.269, bar);
  // Any triangle and its half turn tile the plane, and so does any four-cornered piece, notched or not.
  EXPECT_NEAR(density({{0, 0}, {70, 10}, {20, 90}}), 100, bar);
  EXPECT_NEAR(density({{0, 0}, {50, 40}, {100, 0}, {50, 120}}), 100, bar);
}

TEST(sheets, finds_the_hexagonal_pattern_of_discs) {
  // Thue 1910: pi / sqrt 12. The disc stands for the polygon drawn round it, so that its chords cost nothing.
  constexpr int corners = 720;
  const double radius = 60, around = radius / std::cos(std::numbers::pi / corners);
  EXPECT_NEAR(density(regular(corners, around), std::numbers::pi * radius * radius),
              100 * std::numbers::pi / std::sqrt(12.0), bar);
}

TEST(sheets, a_gap_widens_the_pattern_of_discs_as_a_larger_disc_would) {
  // Discs a gap apart are discs larger by the gap: the grown pattern takes ((d + g) / d)^2 of the paper.
  const Shape disc = shape_of(regular(360, 50));
  const double plain = densest_lattice(lattice_regions(disc, 0)).area_um2;
  const double apart = densest_lattice(lattice_regions(disc, 2000)).area_um2;
  EXPECT_NEAR(apart / plain, 1.02 * 1.02, 0.001); // grown corners lie up to 0.5 % of the gap outside
}
